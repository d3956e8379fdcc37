/** Density and viscosity of clean liquid water at 0.1 MPa, by temperature.
 *     v = (R·TR/p0)·(a5 + Σ ai·α^ni + Σ bi·β^mi),  α = TR/(593 K − T),  β = TR/(T − 232 K),  ρ = 1/v
 *     μ = 1e-6·Σ ci·(T/300 K)^di                     ρ kg/m³ · v m³/kg · μ Pa·s · T K
 * Holds from 253 to 383 K; the functions take °C and the reader admits only temperatures of liquid water.
 * Source: IAPWS SR6-08(2011), Supplementary Release on Properties of Liquid Water at 0.1 MPa, table 2 and
 *     equation (5) of volume; μ the same release's equation (7), agreeing with IAPWS R12-08. Coefficients from
 *     memory, held against published values in published/water.test.ts.
 * Pond water is taken for clean water: 1 g of salts per litre adds less than 0.1 % to the density. */

const TR = 10;
const volumeScale = (461.51805 * TR) / 1e5;
const zeroCelsius = 273.15;

/** kg/m³, T in °C. */
export function waterDensity(T: number): number {
  const kelvin = T + zeroCelsius;
  const a = TR / (593 - kelvin);
  const b = TR / (kelvin - 232);
  const a4 = a * a * a * a;
  const a5 = a4 * a;
  const a7 = a5 * a * a;
  const alphaSum =
    6.74458446e3 * a4 - 2.22521604e5 * a5 + 1.00231247e8 * a7 - 1.63552118e9 * a7 * a + 8.32299658e9 * a7 * a * a;
  const betaSum =
    b *
    (5.78545292e-3 +
      b * (-1.53195665e-2 + b * (3.11337859e-2 + b * (-4.23546241e-2 + b * (3.38713507e-2 - b * 1.19946761e-2)))));
  return 1 / (volumeScale * (1.93763157e-2 + alphaSum + betaSum));
}

/** Dynamic viscosity, Pa·s, T in °C. */
export function waterViscosity(T: number): number {
  const t = (T + zeroCelsius) / 300;
  return 1e-6 * (280.68 * t ** -1.9 + 511.45 * t ** -7.7 + 61.131 * t ** -19.6 + 0.45903 * t ** -40);
}

/** m²/s, T in °C. */
export const kinematicViscosity = (T: number): number => waterViscosity(T) / waterDensity(T);

/** Pressure at which water boils, Pa absolute, T in °C.
 *     ln(p/pc) = (Tc/T)·Σ ai·τ^ki,  τ = 1 − T/Tc,  Tc 647.096 K, pc 22.064 MPa
 * Holds from 0.01 °C to the critical point. Source: IAPWS SR1-86(1992), equation (1); coefficients from memory, held
 * against published values in published/water.test.ts. */
export function vapourPressure(T: number): number {
  const kelvin = T + zeroCelsius;
  const tau = 1 - kelvin / 647.096;
  const sum =
    -7.85951783 * tau +
    1.84408259 * tau ** 1.5 -
    11.7866497 * tau ** 3 +
    22.6807411 * tau ** 3.5 -
    15.9618719 * tau ** 4 +
    1.80122502 * tau ** 7.5;
  return 22.064e6 * Math.exp((647.096 / kelvin) * sum);
}
