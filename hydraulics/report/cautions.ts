/** What every report ends with. Not results: care for people, in plain words. Local rules go before all of it. */
export const cautions: readonly string[] = [
  "These are estimates from the drawing and its assumptions, not a licensed design and not a guarantee. Check what matters on site.",
  "Electricity: mains power near water only behind residual-current protection and by a licensed electrician, after local code. Unplug before reaching in.",
  "Children: open water drowns small children within minutes, in a pond and in an open filter alike. Fence or cover it.",
  "Weight: a filled vessel weighs what the table says, and its own weight besides. It wants a firm, level footing, never a deck.",
  "Mains water: top up over an air gap, after local backflow rules, and treat chlorinated water before it meets fish.",
];
