declare module 'ode-rk4' {
  export default function rk4(
    y: number[],
    derivative: (dy: number[], y: number[], t: number) => void,
    t: number,
    step: number,
  ): { steps(count: number): void; readonly y: number[]; readonly t: number };
}
