/** The section on where the power goes. @module */

import { formatNumber } from '@shaftwork/sim-core/quantities';
import { capital, channelPrinting, clock, drivesOnPack, hasFlow, inflow, outflows, quantityText } from '@shaftwork/sim-core/words';
import { figure } from '../../drawing/figure.js';
import { powerFlowDrawing } from '../../figures/power-flow.js';
import { type Html, html } from '../../html/html.js';
import { energyTable } from '../../tables/energy.js';
import { powerTable } from '../../tables/figure-data.js';
import { lookOf, type ReportView, type Section } from '../report-view.js';

const whole = (share: number): string => formatNumber(share * 100, { decimals: 0 });

export function powerHeading({ best, result }: ReportView): string {
  const lead = best ?? result.candidates[0];
  if (lead === undefined || !hasFlow(lead)) return 'Where the energy of the cells went';
  const { power } = lead.moment;
  const total = inflow(power);
  const losses = [...outflows(power)].sort((a, b) => b.power - a.power);
  const largest = losses[0];
  const moved = power.useful > 0 ? `${whole(power.useful / total)}\u202fW move the vehicle` : 'nothing moves a vehicle';
  if (largest === undefined) return `Of 100\u202fW from the cells, ${moved}`;
  return `Of 100\u202fW from the cells, ${moved}; the largest loss is ${whole(largest.power / total)}\u202fW (${largest.words})`;
}

export async function powerSection(view: ReportView): Promise<Section> {
  const { result, looks, best } = view;
  const lead = best ?? result.candidates[0];
  let flow: Html | undefined;
  if (lead !== undefined && hasFlow(lead)) {
    const { moment } = lead;
    const look = lookOf(view, lead);
    const total = inflow(moment.power);
    const motor = moment.power.copperLoss + moment.power.ironLoss + moment.power.frictionLoss;
    const speed = moment.channels.vehicleSpeed;
    const drives = drivesOnPack(moment);
    const one = drives > 1 ? `, one of ${drives} drives with its share of the pack` : '';
    const watt = (power: number): string => quantityText(power, channelPrinting('batteryPower'));
    flow = await figure({
      id: 'figure-power',
      number: view.nextFigure(),
      label: `Flow of power from the cells to the vehicle, ${lead.name}`,
      description: `${watt(total)} leave the cells. ${outflows(moment.power)
        .map(({ words, power }) => `${capital(words)} ${watt(power)}`)
        .join(', ')}. ${watt(moment.power.useful)} move the vehicle.`,
      drawings: { wide: powerFlowDrawing(lead, look, 'wide'), narrow: powerFlowDrawing(lead, look, 'narrow') },
      caption: html`${lead.name}${one}: ${moment.label}, at ${clock(moment.time)}${speed > 0 ? `, ${quantityText(speed, channelPrinting('vehicleSpeed'))}` : ''}. Widths are to scale. The darker losses heat the motor: ${watt(motor)}, of which ${watt(moment.power.copperLoss)} arise in the winding.`,
      data: powerTable(lead),
    });
  }
  const body = html`${flow ?? html`<p>At the chosen moment no power flows from the cells to the vehicle, so there is no flow to draw.</p>`}
<h3>The same over the whole run, as energy</h3>
${energyTable(result, looks)}
<p class="note">Each line is calculated by its own law; the last says how nearly they add up to what left the cells.</p>`;
  return { id: 'power', word: 'Power and energy', heading: powerHeading(view), body };
}
