/** Standard acceleration of gravity, m/s². Source: 3rd General Conference on Weights and Measures, 1901 (exact). */
export const g = 9.80665;
