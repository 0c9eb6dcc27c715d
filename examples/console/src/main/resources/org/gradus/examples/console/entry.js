// What is entered: a pulse that is tapped, numbers on a pad, figures of a scale, words.
import { el, fill, button, choices, field, say, t } from './page.js';

/**
 * The panel of one reading.
 *
 * @param item what is read: its name and its entries
 * @param speed how fast the clock of the test runs
 * @param send takes the fields of the reading; gives a promise that fails with a message
 */
export function entryPanel(item, speed, send) {
  const problem = el('p', { class: 'problem', role: 'alert' });
  const taken = el('input', { id: 'taken', autocomplete: 'off', size: 6, placeholder: '3:00' });
  const record = async fields => {
    problem.textContent = '';
    const all = { ...fields };
    if (item.baseline) all.posture = item.baseline;
    if (taken.value.trim()) all.taken = taken.value.trim();
    try {
      await send(all);
    } catch (refused) {
      problem.textContent = refused.message;
    }
  };
  const numbers = item.entries.filter(entry => entry.by === 'number');
  const ways = item.entries.filter(entry => entry.by !== 'number').map(entry => [entry.label, () => (entry.by === 'pulse'
    ? pulse(entry, speed, record) : words(entry, word => record({ [`value.${entry.name}`]: word })))]);
  if (numbers.length > 0) {
    ways.push([numbers.map(entry => entry.label).join(t(' and ')), () => numberPad(numbers, record)]);
  }
  // What is read together may be entered in any order, one pad at a time.
  const place = el('div');
  const show = chosen => fill(place, ways[chosen][1](), ways.length > 1 && el('div', { class: 'choices' },
    ways.map(([label], other) => other !== chosen && button(t('First: {0}', label), () => show(other)))
      .filter(made => made)));
  show(0);
  return [place, problem, !item.baseline && el('details', {},
    el('summary', {}, t('It was taken earlier')), field(t('Taken at'), taken, t('of the clock of the test, minutes:seconds')))];
}

function words(entry, take) {
  return el('fieldset', { class: entry.by }, el('legend', {}, entry.by === 'scale'
    ? t('{0}, from {1} (least) to {2} (most)', entry.label, entry.words[0], entry.words[entry.words.length - 1])
    : entry.label), choices(entry.shown ? entry.words.map((word, place) => [word, entry.shown[place]]) : entry.words, take));
}

/** Counts beats that are tapped during the seconds of the protocol; can be put right before it is sent. */
function pulse(entry, speed, record) {
  const place = el('div', { class: 'pulse' });
  let count = 0;
  let started = 0;
  let ticking;
  const spent = () => (performance.now() - started) / 1000 * speed;
  const pad = el('button', { type: 'button', class: 'pad', 'data-key': 'pad' });
  const beat = () => {
    if (!started) {
      started = performance.now();
      count = 0;
      place.dataset.counting = 'yes';
      ticking = setInterval(show, 100);
    } else {
      count += 1;
    }
    show();
  };
  // A press counts when the finger comes down; the keyboard has no such moment.
  pad.addEventListener('pointerdown', event => { event.preventDefault(); pad.focus(); beat(); });
  pad.addEventListener('keydown', event => {
    if ((event.key === ' ' || event.key === 'Enter') && !event.repeat) { event.preventDefault(); beat(); }
  });
  const show = () => {
    if (!started) {
      fill(pad, el('strong', {}, t('Count for {0} s', entry.over)),
        el('span', {}, t('Press to begin, then press at each beat.')));
    } else if (spent() < entry.over) {
      fill(pad, el('strong', {}, String(count)), el('span', {}, t('beats, {0} s left', Math.ceil(entry.over - spent()))));
    } else {
      clearInterval(ticking);
      counted();
    }
  };
  const counted = () => {
    const words = el('p', { class: 'counted', role: 'status' });
    const draw = change => {
      count = Math.max(1, count + change);
      words.textContent = t('{0} beats in {1} s: {2} bpm, in steps of {3} bpm',
        count, entry.over, Math.round(count * 60 / entry.over), Math.round(600 / entry.over) / 10);
    };
    draw(0);
    fill(place, words, el('div', { class: 'choices' },
      button(t('One beat fewer'), () => draw(-1)), button(t('One beat more'), () => draw(1)),
      button(t('Count again'), begin), button(t('Record the pulse'), () => record({ beats: count, over: entry.over }),
        { class: 'do' })));
    place.querySelector('.do').focus();
  };
  const begin = () => {
    started = 0;
    delete place.dataset.counting;
    show();
    fill(place, pad, el('p', { class: 'or' }, t('or, as a monitor shows it:')),
      numberPad([entry], record));
  };
  begin();
  return place;
}

/** Fields for numbers, with one pad of digits that types into the one that was touched last. */
function numberPad(entries, record) {
  const inputs = entries.map(entry => el('input', { id: `entry-${entry.name}`, inputmode: 'decimal',
    autocomplete: 'off', size: 5, 'data-key': `entry-${entry.name}` }));
  let last = inputs[0];
  inputs.forEach(input => input.addEventListener('focus', () => { last = input; }));
  const press = digit => {
    last.value = digit === 'back' ? last.value.slice(0, -1) : last.value + digit;
    say(last.value);
    const next = inputs[inputs.indexOf(last) + 1];
    if (/^\d{3}$/.test(last.value) && next && !next.value) last = next;
    inputs.forEach(input => input.classList.toggle('current', input === last));
  };
  const done = event => {
    event.preventDefault();
    const fields = {};
    entries.forEach((entry, place) => {
      if (inputs[place].value.trim()) fields[`value.${entry.name}`] = inputs[place].value.trim();
    });
    record(fields);
  };
  const names = entries.map(entry => entry.label).join(t(' and '));
  return el('form', { class: 'numbers', onsubmit: done, novalidate: true },
    el('div', { class: 'fields' }, entries.map((entry, place) =>
      field(`${entry.label}${entry.unit ? `, ${entry.unit}` : ''}`, inputs[place]))),
    el('div', { class: 'digits', role: 'group', 'aria-label': t('Digits for {0}', names) },
      ['1', '2', '3', '4', '5', '6', '7', '8', '9', '.', '0'].map(digit =>
        button(digit, () => press(digit))),
      button(t('back'), () => press('back'), { 'aria-label': t('Delete the last digit') })),
    el('button', { class: 'do', type: 'submit', 'data-key': `record-${names}` }, t('Record {0}', names)));
}
