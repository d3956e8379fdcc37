/** What a field of a drawing is called on its slip, for messages about it. */
import type { PartKind } from "../../hydraulics/index.ts";

type Names = Readonly<Record<string, string>>;

const common: Names = { label: "Name", x: "Place", z: "Level", "on.at": "From its start", "on.pipe": "On" };

const ofKind: Readonly<Record<PartKind, Names>> = {
  pond: {
    x: "Left edge",
    width: "Width, as drawn",
    length: "Length, into the page",
    bedLevel: "Bed level",
    rimLevel: "Rim level",
    waterLevel: "Water level, running",
    sideSlope: "Side slope",
  },
  vessel: {
    x: "Left edge",
    "plan.diameter": "Diameter",
    "plan.width": "Width, as drawn",
    "plan.length": "Length, into the page",
    baseLevel: "Base level",
    rimLevel: "Rim level",
    media: "Stone",
    "media[].depth": "Depth of layer # from the base",
    "media[].grain": "Grain of layer # from the base",
    "media[].porosity": "Voids of layer # from the base",
    clogging: "Clogging",
    overflow: "Over the rim it spills",
  },
  pump: {
    in: "Draws from",
    z: "Intake level",
    outletBore: "Outlet bore",
    curve: "Pump curve",
    "curve[]": "Point # of the pump curve",
    "curve[][0]": "Flow of point #",
    "curve[][1]": "Head of point #",
    maxFlow: "Greatest flow",
    maxHead: "Greatest head",
    watts: "Draws",
    stoppedK: "Loss when stopped, K",
    speed: "Speed",
  },
  pipe: {
    from: "From",
    to: "To",
    "from.x": "From, place",
    "from.z": "From, level",
    "from.at": "From, tee",
    "to.x": "To, place",
    "to.z": "To, level",
    "to.at": "To, tee",
    route: "Bends",
    "route[]": "Bend #",
    "route[][0]": "Place of bend #",
    "route[][1]": "Level of bend #",
    bore: "Bore",
    nominal: "Size",
    material: "Material",
    hazenWilliamsC: "Hazen-Williams C",
    roughness: "Roughness",
    bends: "Bends drawn",
    extraLength: "Length not drawn",
    fittings: "Further fittings",
    "fittings[].count": "Count of fitting #",
    "fittings[].k": "K of fitting #",
  },
  valve: { open: "Open", type: "Kind", role: "Serves to" },
  checkValve: { openingHead: "Opening head", stuckOpen: "State" },
  vent: { bore: "Bore", openEndZ: "Open end", open: "Open" },
  spillway: { crestZ: "Crest level", width: "Width of the crest", crest: "Crest", from: "Cut into", to: "Falls" },
  note: { text: "Text" },
};

const ofDrawing: Names = {
  title: "Title",
  "site.groundLevel": "Ground level",
  "site.freeboard": "Freeboard wanted",
  "site.waterTemperature": "Water temperature",
  "site.friction": "Friction by",
  "site.tariff": "Price of a kWh",
  "site.currency": "Currency",
  parts: "Parts",
};

/** The words beside the field; the path itself where no slip shows it.
 * @param kind null for a field of the drawing
 * @param path as the reader tells it, from the part on: `rimLevel`, `media[1].depth` */
export function fieldName(kind: PartKind | null, path: string): string {
  const names = kind === null ? ofDrawing : { ...common, ...ofKind[kind] };
  // The first index is the one that a slip counts by, from 1.
  const index = /\[(\d+)\]/.exec(path)?.[1];
  const name = names[path.replace(/\[\d+\]/, "[]")] ?? path;
  return index === undefined ? name : name.replace("#", String(Number(index) + 1));
}
