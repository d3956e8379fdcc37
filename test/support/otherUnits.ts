/** Figures of the other system of units in a text, where it should have one alone. */

export const metricFigure =
  /(?:^|[^\p{L}])\d[\d.,]* ?(?:mm|cm|km|m|m²|m³|L|kg|g|t|°C|bar|mbar|kPa|m\/s|m\/h|L\/h|L\/s|m³\/h|m³\/s|mm\/m)(?![\p{L}\d/])|\b(?:millimetre|metre|litre|kilogram)s?\b/u;

export const americanFigure =
  /\d ?(?:ft|in|gal|gph|gpm|psi|lbs?|ft\/s|ft\/h|°F|yd)(?![\p{L}\d])|\b(?:feet|foot|inch|gallon|pound)s?\b/u;

/** Levels to the millimetre, as only metres have them. */
export const millimetreLevel = /[+−±]\d+\.\d{3}(?!\d| in)/;
