/**
 * Forced convection outside a body: mean Nusselt numbers of a cylinder across the stream and of a surface along it.
 *
 *   (1) cylinder across: Nu = 0.3 + 0.62·Re^½·Pr^⅓/[1 + (0.4/Pr)^⅔]^¼ · [1 + (Re/282 000)^⅝]^⅘
 *   (2) plate, laminar:  Nu = 0.664·Re^½·Pr^⅓
 *   (3) plate, turbulent from the edge: Nu = 0.037·Re^0.8·Pr^⅓
 *   (4) plate in a disturbed stream: Nu = √(Nu_laminar² + Nu_turbulent²)
 *
 * Nu, Re — on diameter or length along the stream; Pr — Prandtl number, all at film temperature.
 * *Holds for* (1) Re·Pr > 0.2, (2) Re < 5·10⁵, 0.6 < Pr < 2000, (3) 5·10⁵ < Re < 10⁷, (4) 10 < Re < 10⁷. Re = 0 gives the limit 0.3 in (1) and nothing in (2)–(4). Scatter 20 %.
 * *Leaves out* a stream's blockage by the parts around, and a short cylinder's ends. (4) has no jump at a critical Reynolds number, and
 * a propeller's wash or a hull's draught is never a quiet stream; at Re 10⁴ it lies a third above (2).
 * *Source* (1) S.W. Churchill & M. Bernstein, J. Heat Transfer 99, 1977, in Incropera et al., 6th ed., eq. 7.54; (2) E. Pohlhausen 1921, in
 * Incropera, eq. 7.30; (3) Incropera, eq. 7.38 with the boundary layer tripped at the edge; (4) V. Gnielinski 1975 in VDI-Wärmeatlas, 9th ed. 2002,
 * section Gd 1, whose own turbulent law lies 1–10 % below (3) in air, Re 10⁴–10⁶.
 *
 * @module
 */

/** What (1) leaves at Re = 0: conduction into still air [1]. */
export const CROSS_FLOW_CONDUCTION = 0.3;

/** (1) Nu [1] of a cylinder across the stream from `reynolds` on its diameter. Roots, where powers would do, because it runs in every time step. */
export const crossFlowNusselt = (reynolds: number, prandtl: number): number => {
  const wall = Math.sqrt(Math.sqrt(1 + Math.cbrt(0.4 / prandtl) ** 2));
  const root = Math.sqrt(reynolds / 282000);
  const turbulence = (1 + root * Math.sqrt(Math.sqrt(root))) ** 0.8;
  return CROSS_FLOW_CONDUCTION + ((0.62 * Math.sqrt(reynolds) * Math.cbrt(prandtl)) / wall) * turbulence;
};

/** (2) Nu [1] of a plate in a quiet laminar stream from `reynolds` on its length. */
export const laminarPlateNusselt = (reynolds: number, prandtl: number): number => 0.664 * Math.sqrt(reynolds) * Math.cbrt(prandtl);

/** (3) Nu [1] of a plate turbulent from its leading edge. */
export const turbulentPlateNusselt = (reynolds: number, prandtl: number): number => 0.037 * reynolds ** 0.8 * Math.cbrt(prandtl);

/** (4) Nu [1] of a plate in a disturbed stream, smooth in Re. */
export const plateNusselt = (reynolds: number, prandtl: number): number => {
  const laminar = laminarPlateNusselt(reynolds, prandtl);
  const turbulent = turbulentPlateNusselt(reynolds, prandtl);
  return Math.sqrt(laminar * laminar + turbulent * turbulent);
};
