declare module 'psychrolib' {
  interface Psychrolib {
    readonly SI: number;
    SetUnitSystem(system: number): void;
    GetStandardAtmPressure(elevation: number): number;
    GetSatVapPres(temperature: number): number;
    GetHumRatioFromRelHum(temperature: number, relativeHumidity: number, pressure: number): number;
    GetMoistAirDensity(temperature: number, humidityRatio: number, pressure: number): number;
    GetTDewPointFromRelHum(temperature: number, relativeHumidity: number): number;
  }
  const psychrolib: Psychrolib;
  export default psychrolib;
}
