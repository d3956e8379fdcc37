import type { Section } from "../../hydraulics/index.ts";

export const emptySection: Section = { title: "New drawing", site: {}, parts: new Map() };
