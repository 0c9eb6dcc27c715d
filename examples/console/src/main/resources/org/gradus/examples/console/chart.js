// Heart rate and pressure against time above the stages, as they come. The table says the same.
import { clock, t } from './page.js';

const SPACE = 'http://www.w3.org/2000/svg';
const WIDTH = 560;
const LEFT = 44;
const RIGHT = 20;
const TOP = 24;
const PLOT = 170;
const STRIP = 40;

function shape(name, attributes, words) {
  const made = document.createElementNS(SPACE, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  if (words !== undefined) made.textContent = words;
  return made;
}

export function chart(test, stage) {
  const stages = stage ? [...test.stages, stage] : test.stages;
  const times = [...test.rates.map(rate => rate[0]), ...stages.flatMap(each => [each.from, each.to])];
  const from = Math.floor(Math.min(...stages.map(each => each.from)) / 60) * 60;
  const to = Math.max(from + 360, Math.ceil(Math.max(...times) / 60) * 60);
  const rates = test.rates.filter(rate => rate[0] >= from);
  const pressures = test.pressures.filter(cuff => cuff[0] >= from);
  const values = [...rates.map(rate => rate[1]), ...pressures.flatMap(cuff => [cuff[1], cuff[2]])];
  const low = Math.floor((Math.min(80, ...values) - 5) / 20) * 20;
  const high = Math.ceil((Math.max(140, ...values) + 5) / 20) * 20;
  const x = time => LEFT + (time - from) / (to - from) * (WIDTH - LEFT - RIGHT);
  const y = value => TOP + (1 - (value - low) / (high - low)) * PLOT;
  const words = t('Heart rate against time. {0}.', rates.map(rate => `${clock(rate[0])}: ${Math.round(rate[1])} bpm`).join(', ')
    || t('No reading yet'));
  const svg = shape('svg', { viewBox: `0 0 ${WIDTH} ${TOP + PLOT + STRIP + 26}`, role: 'img', 'aria-label': words });
  for (let value = low; value <= high; value += 20) {
    svg.append(shape('line', { x1: LEFT, x2: WIDTH - RIGHT, y1: y(value), y2: y(value), class: 'grid' }),
      shape('text', { x: LEFT - 6, y: y(value) + 4, 'text-anchor': 'end' }, value));
  }
  const step = [60, 120, 180, 300, 600, 1200, 3600].find(each => (to - from) / each <= 9) || 7200;
  for (let time = from; time <= to; time += step) {
    svg.append(shape('line', { x1: x(time), x2: x(time), y1: TOP, y2: TOP + PLOT + STRIP, class: 'grid' }),
      shape('text', { x: x(time), y: TOP + PLOT + STRIP + 17, 'text-anchor': 'middle' }, clock(time)));
  }
  svg.append(shape('text', { x: 2, y: 13 }, pressures.length ? 'bpm, mmHg' : 'bpm'));
  for (const each of stages) {
    const width = Math.max(2, x(each.to) - x(each.from) - 2);
    svg.append(shape('rect', { x: x(each.from) + 1, y: TOP + PLOT + 4, width, height: STRIP - 8,
      class: each.used ? 'used' : each.marginal ? 'marginal' : 'stage' }));
    if (each.load.length * 6.6 < width) {
      svg.append(shape('text', { x: x(each.from) + width / 2, y: TOP + PLOT + 25, 'text-anchor': 'middle' }, each.load));
    }
  }
  for (const [time, systolic, diastolic] of pressures) {
    svg.append(shape('line', { x1: x(time), x2: x(time), y1: y(systolic), y2: y(diastolic), class: 'cuff' }));
  }
  if (rates.length > 1) {
    svg.append(shape('polyline', { points: rates.map(rate => `${x(rate[0])},${y(rate[1])}`).join(' '), class: 'course' }));
  }
  rates.forEach(rate => svg.append(shape('circle', { cx: x(rate[0]), cy: y(rate[1]), r: 4.5, class: 'rate' })));
  return svg;
}
