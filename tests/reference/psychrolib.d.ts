/** The part of psychrolib (ASHRAE equations) that the tests call. It ships no types. */
declare module 'psychrolib' {
  const psychrolib: {
    IP: number;
    SI: number;
    SetUnitSystem(system: number): void;
    /** Pa over liquid water, for °C. */
    GetSatVapPres(temperatureC: number): number;
  };
  export default psychrolib;
}
