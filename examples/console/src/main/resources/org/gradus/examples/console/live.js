// A test that goes on: one screen for before, during and after, drawn anew part by part.
import { byId, el, fill, get, post, button, clock, say, ask, close, openDialog, part, field, choices, t, inLanguage } from './page.js';
import { entryPanel } from './entry.js';
import { chart } from './chart.js';
import * as sound from './sound.js';

const reasons = () => [t('misheard'), t('typed wrongly'), t('read wrongly')];
const stopWords = () => t('Take the load away, let the person sit, and follow your emergency plan.');

let id;
let test;
let received;
let stream;
let timer;
let chosen;
let skipped;
let heard;
let places;
let shown;
let sent = 0;

export function leaveTest() {
  if (stream) stream.close();
  clearInterval(timer);
  close();
  stream = undefined;
}

export async function showTest(main, name) {
  id = name;
  chosen = undefined;
  skipped = new Set();
  heard = {};
  const first = await get(`/api/tests/${id}`);
  places = {};
  const section = (key, label) => {
    places[key] = el('section', { id: key, 'aria-label': label });
    return places[key];
  };
  fill(main, el('div', { class: 'live' },
    section('head', t('Where the test stands')),
    el('div', { class: 'left' }, section('notice', t('Notices')), section('decision', t('What is recommended')),
      section('next', t('What to do next')), section('last', t('Last entry'))),
    el('div', { class: 'right' }, section('signs', t('How the person does')), section('result', t('Result')),
      section('course', t('Course of the test')),
      section('entries', t('What was recorded')))));
  for (const name of ['nextHead', 'pad', 'nextMore']) {
    places[name] = el('div');
    places.next.append(places[name]);
  }
  shown = undefined;
  fill(byId('bar'), button(t('STOP'), stop, { class: 'stop', 'data-key': 'stop' }), soundButton());
  take(first);
  stream = new EventSource(inLanguage(`/api/tests/${id}/stream`));
  stream.onmessage = message => { lost(false); take(JSON.parse(message.data)); };
  stream.addEventListener('alive', message => {
    test.now = Number(message.data);
    received = performance.now();
    lost(false);
  });
  stream.onerror = () => lost(true);
  timer = setInterval(tick, 200);
}

function soundButton() {
  const words = () => (sound.isMuted() ? t('Sound is off') : t('Sound is on'));
  const made = button(words(), () => {
    sound.mute(!sound.isMuted());
    made.textContent = words();
    made.setAttribute('aria-pressed', String(sound.isMuted()));
  }, { 'data-key': 'sound', 'aria-pressed': String(sound.isMuted()) });
  return made;
}

function lost(away) {
  part(places.notice, [away, test.gap], () => [
    away && el('p', { class: 'warning', role: 'alert' },
      t('The console does not answer. Go on by your own judgement; the page tries again by itself.')),
    test.gap && el('p', { class: 'warning' }, test.gap)]);
}

const now = () => (test.phase === 'ENDED' ? test.now
  : test.now + (performance.now() - received) / 1000 * test.speed);

function take(state) {
  if (test && state.event < test.event && state.now < test.now) return;
  const before = test;
  test = state;
  received = performance.now();
  draw();
  if (!before || before.decision.token !== test.decision.token) changed(before);
}

// A new recommendation is said, heard, and a stop fills the screen.
function changed(before) {
  document.title = `${test.decision.word} - ${t('Gradus console')}`;
  say(`${test.decision.word}. ${test.decision.sentence}`);
  if (test.decision.kind === 'STOP') {
    sound.stops();
    showStop();
  } else if (before) {
    if (byId('box').className === 'stop recommended') close();
    if (test.decision.does) sound.decides();
  }
  if ((test.decision.does || test.phase === 'ENDED') && !busy()) byId('main').scrollTop = 0;
}

async function act(fields) {
  try {
    take(await post(`/api/tests/${id}`, { seen: test.event, ...fields }));
  } catch (refused) {
    if (refused.status === 409) take(await get(`/api/tests/${id}`));
    throw refused;
  }
}

// A dialog that asked for something closes when it is done; one that has come since, such as STOP, stays.
async function actIn(fields) {
  const dialog = openDialog();
  await act(fields);
  if (dialog !== 0 && openDialog() === dialog) close();
}

// Where a refusal has no place of its own it is shown above everything.
const doing = fields => actIn(fields).catch(refused => ask(t('Not recorded'), [
  el('p', { role: 'alert' }, refused.message), button(t('Close'), close, { class: 'do' })]));

/* ------------------------------------------------------------------ what is drawn */

function draw() {
  head();
  lost(false);
  arrange();
  part(places.decision, [test.decision, test.phase], decision);
  next();
  part(places.signs, [test.signs, test.questions, test.symptoms, test.phase], signs);
  part(places.result, [test.result, test.phase], result);
  course();
  part(places.entries, test.events, entries);
  part(places.last, [test.events.at(-1), test.phase], last);
  byId('bar').hidden = test.phase === 'ENDED';
  tick();
}

// Before the test the questions come first: the recommendation waits for them.
function arrange() {
  const first = test.phase === 'BEFORE' && test.decision.kind === 'MEASURE' ? places.next : places.decision;
  if (places.notice.nextElementSibling !== first) places.notice.after(first);
}

function head() {
  part(places.head, [test.phase, test.stage, test.load, test.protocol, test.posture, test.nextLoad], () => {
    const words = { BEFORE: t('Before the test'), STAGE: test.stage, RECOVERY: t('Recovery: {0}', test.stage || ''),
      ENDED: t('The test is over') }[test.phase];
    return [el('p', { class: 'protocol' }, test.protocol), el('p', { class: 'stage' }, words),
      el('p', { class: 'load' }, test.load, test.posture ? `, ${test.posture}` : ''),
      test.phase !== 'ENDED' && el('p', { class: 'time' }, el('span', { id: 'stage-time' }),
        el('span', { class: 'label' }, test.phase === 'BEFORE' ? '' : t(' in this stage; test clock ')),
        el('span', { id: 'clock', class: test.phase === 'BEFORE' ? '' : 'label' })),
      test.nextLoad && el('p', {}, t('At {0} set {1}.', clock(test.nextLoad.at), test.nextLoad.load))];
  });
}

function why(because) {
  return el('details', {}, el('summary', {}, t('Why')),
    el('p', {}, because.reason),
    el('p', { class: 'formula' }, because.text),
    because.figures && el('p', { class: 'formula' }, t('With the figures of now: {0}', because.figures)),
    el('p', { class: 'hint' }, t('Rule {0}. Source: {1}', because.rule, because.source)));
}

function decision() {
  const it = test.decision;
  const follow = { READY: t('Begin the exercise'), DEFER: t('Close: not tested today'), HOLD: t('Hold as recommended'),
    CHANGE: t('Change the load'), ADVANCE: t('The new load is set'), FINISH: t('End the exercise'), STOP: t('Stop now'),
    END: t('End the test'), NOT_RECOVERED: t('End the observation here') }[it.kind];
  return [
    el('p', { class: 'word' }, it.word),
    el('h1', {}, it.sentence),
    it.until !== undefined && el('p', { class: 'until' }, t('Next decision in '), el('span', { class: 'count', 'data-until': it.until })),
    it.reasons.length > 0 && el('ul', {}, it.reasons.map(words => el('li', {}, words))),
    it.does && button(follow, () => doing({ do: 'follow', token: it.token }), { class: 'do', 'data-key': 'follow' }),
    it.offers.map((offer, place) => el('p', {}, button(t('Instead: {0}', offer.sentence),
      () => doing({ do: 'offer', offer: place, token: it.token }), { class: 'offer' }),
    el('span', { class: 'hint' }, ` ${offer.why}`))),
    it.cautions.map(words => el('p', { class: 'warning' }, words)),
    it.couldFlip.length > 0 && el('p', { class: 'marginal' },
      t('A close call: within the step of the readings it could have come out otherwise ({0}).', it.couldFlip.join('; '))),
    it.unchecked.length > 0 && test.phase !== 'BEFORE' && el('details', {}, el('summary', {}, t('Not checked for want of readings: {0}', it.unchecked.length)),
      el('ul', {}, it.unchecked.map(words => el('li', {}, words)))),
    it.why && why(it.why),
    test.phase !== 'ENDED' && otherwise()];
}

const instead = () => ({
  BEFORE: [['begin', t('Begin all the same')], ['defer', t('Do not test today')]],
  STAGE: [['hold', t('Hold for one minute')], ['advance', t('Go to the next stage')], ['finish', t('End the exercise')]],
  RECOVERY: [['end', t('End the test')]],
});

function otherwise() {
  const reason = el('input', { id: 'otherwise-reason', autocomplete: 'off' });
  const load = test.loads.map(each => {
    const input = el('input', { id: `load-${each.name}`, inputmode: 'decimal', size: 6, autocomplete: 'off' });
    return el('div', { class: 'fields' }, field(t('Really set: {0}, {1}', each.label, each.unit), input, t('now {0}', each.value)),
      button(t('Record {0}', each.label), () => doing({ do: 'load', name: each.name, value: input.value })));
  });
  return el('details', {}, el('summary', {}, t('Decide otherwise')),
    field(t('Reason'), reason, t('stands in the record')),
    el('div', { class: 'choices' }, instead()[test.phase].map(([verdict, words]) =>
      button(words, () => doing({ do: 'override', verdict, reason: reason.value }))),
    button(t('Break the test off'), () => doing({ do: 'abandon', reason: reason.value }))), load);
}

// The pad stays as it is while something is in it, whatever time or another window brings.
function next() {
  const asks = test.phase === 'ENDED' ? [] : test.asks.filter(one => !skipped.has(one.name));
  const items = test.phase === 'ENDED' || asks.length > 0 ? [] : test.items;
  let item = items.find(one => key(one) === chosen) || items.find(one => one.state !== 'MISSED');
  const kept = shown && busy() && Boolean(shown.baseline) === (test.phase === 'BEFORE') ? items.find(one => one.name === shown.name) || shown : undefined;
  const waiting = kept && item && item.name !== kept.name ? item : undefined;
  item = kept || item;
  part(places.nextHead, [test.phase, test.decision.does, asks, item && [item.name, item.begin, item.due, item.posture], waiting && waiting.name,
    test.cues, test.whenDone], () => {
    if (test.phase === 'ENDED') return [];
    if (asks.length > 0) return question(asks[0], asks.length);
    return [
      item || !test.decision.does ? el('h2', {}, item ? t('Next: {0}', item.name) : t('Nothing to read now')) : undefined,
      test.whenDone && button(t('It is done'), () => doing({ do: 'done' }), { class: 'do' }),
      item && el('p', { class: 'until' }, due(item)),
      waiting && el('p', { class: 'warning' }, t('Waiting behind this: {0}', waiting.name)),
      item && item.posture && el('p', {}, t('The person is {0}.', item.posture)),
      ...test.cues.slice(0, 2).map(cue => el('p', { class: 'cue' }, t('At {0}: {1}', clock(cue.at), cue.say)))];
  });
  shown = item;
  part(places.pad, [item && [item.name, item.entries], sent], () => item && entryPanel(item, test.speed, async fields => {
    await act({ do: 'read', ...fields });
    chosen = undefined;
    fill(places.pad);
    sent += 1;
    next();
  }));
  const others = items.filter(one => !item || one.name !== item.name || one.due !== item.due);
  part(places.nextMore, [test.phase, others.map(one => [key(one), one.state])], () => others.length > 0 && el('details',
    { open: test.phase === 'BEFORE' }, el('summary', {}, t('Enter something else')),
    el('div', { class: 'choices' }, others.map(one => button(
      `${one.name}${one.baseline ? '' : one.state === 'MISSED' ? t(', missed at {0}', clock(one.due)) : t(' at {0}', clock(one.due))}`,
      () => { chosen = key(one); fill(places.pad); next(); places.next.scrollIntoView({ block: 'nearest' }); })))));
}

const busy = () => [...places.pad.querySelectorAll('input')].some(input => input.value.trim())
  || places.pad.querySelector('[data-counting]') !== null;

const key = item => `${item.name} ${item.baseline ? '' : item.due}`;

function due(item) {
  if (item.baseline) return t('Before the test begins.');
  return [t('For {0}: ', clock(item.due)), el('span', { class: 'count', 'data-begin': item.begin, 'data-due': item.due })];
}

function question(one, left) {
  const send = value => doing({ do: 'read', [`value.${one.name}`]: value });
  const input = el('input', { id: 'answer', inputmode: 'decimal', autocomplete: 'off', size: 6 });
  return [el('h2', {}, t('Ask: {0}', one.prompt)), el('p', { class: 'hint' }, t('{0} to answer', left)),
    one.words ? choices(one.words.map((word, place) => [word, one.shown[place]]), send)
      : el('form', { novalidate: true, onsubmit: event => { event.preventDefault(); send(input.value); } },
        field(t('Answer, in {0}', one.unit), input, one.allowed), el('button', { class: 'do', type: 'submit' }, t('Record the answer'))),
    !one.needed && el('p', {}, button(t('Leave it out'), () => { skipped.add(one.name); next(); }))];
}

function signs() {
  if (test.phase === 'ENDED') return [];
  const withdraw = one => doing(one.top ? { do: 'sign', name: one.name, grade: 0 }
    : { do: 'withdraw', name: one.name, reason: t('asked, and it has gone') });
  return [
    test.symptoms.map(one => el('div', { class: 'warning' },
      el('p', {}, el('strong', {}, t('Has it gone? ')), one.prompt),
      button(t('{0} has gone', one.label), () => withdraw(test.signs.find(sign => sign.name === one.name))))),
    el('h2', {}, t('How does the person do?')),
    test.questions.length > 0 && el('ul', { class: 'questions' }, test.questions.map(words => el('li', {}, words))),
    el('ul', { class: 'signs' }, test.signs.map(one => el('li', {},
      one.grade > 0
        ? button(t('{0}: there. Has it gone?', `${one.label}${one.top ? ` ${one.grade}` : ''}`), () => withdraw(one), { class: 'there', 'data-key': one.name })
        : button(one.label, () => report(one), { 'data-key': one.name, 'aria-describedby': `sign-${one.name}` }),
      el('span', { class: 'hint', id: `sign-${one.name}` }, one.prompt))))];
}

function report(one) {
  if (!one.top) {
    doing({ do: 'sign', name: one.name });
    return;
  }
  const grades = Array.from({ length: one.top }, (_, grade) => grade + 1);
  ask(t('{0}: how much, 1 (least) to {1} (most)?', one.label, one.top), [el('p', {}, one.prompt),
    choices(grades, grade => doing({ do: 'sign', name: one.name, grade })), button(t('Cancel'), close)]);
}

function result() {
  const it = test.result;
  if (!it) return [];
  const over = test.phase === 'ENDED';
  return [el('h2', {}, it.ending ? t('Result; the test ended: {0}', it.ending) : t('Result so far')),
    it.capacity ? el('p', { class: 'answer' }, it.capacity) : el('p', {}, t('No aerobic capacity could be estimated.')),
    it.interval && el('p', {}, t('95 % interval {0}. An estimate is not a measurement.', it.interval)),
    (it.reasons || []).length > 0 && el('ul', {}, it.reasons.map(words => el('li', {}, words))),
    (it.findings || []).map(words => el('p', { class: 'warning' }, words)),
    (it.shares || []).length > 0 && el('details', {}, el('summary', {}, t('Where the doubt comes from')),
      el('ul', {}, it.shares.map(words => el('li', {}, words)))),
    (it.cautions || []).length > 0 && el('ul', {}, it.cautions.map(words => el('li', {}, words))),
    it.needsClearance && !it.cleared && el('div', { class: 'warning' },
      el('p', {}, t('After this stop there is no training plan until the person has been cleared for exercise by somebody who may do so.')),
      !over && button(t('Cleared for exercise'), () => doing({ do: 'read', 'value.cleared_after_stop': 'yes' })),
      over && el('a', { class: 'big', href: inLanguage(`/api/tests/${id}/report?cleared=yes`), target: '_blank' }, t('Report for a person who was cleared since'))),
    over && el('p', {}, el('a', { class: 'big', href: inLanguage(`/api/tests/${id}/report`), target: '_blank' }, t('Report to print and sign')), ' ',
      el('a', { class: 'big', href: `/api/tests/${id}/record` }, t('Record as a file'))),
    over && el('p', {}, el('a', { href: '#' }, t('To the start')))];
}

function course() {
  const stage = test.phase === 'STAGE'
    ? { name: test.stage, from: test.stageFrom, to: Math.max(now(), test.stageFrom + 1), load: test.load } : undefined;
  const shown = stage ? { ...stage, to: Math.ceil(stage.to / 15) * 15 } : undefined;
  part(places.course, [test.rates, test.pressures, test.stages, shown], () => {
    if (test.stages.length === 0 && !stage) return [];
    const names = [...new Set(test.stages.flatMap(each => each.readings.map(reading => reading.name)))];
    return [el('h2', {}, t('Course')), el('figure', {}, chart(test, shown), el('figcaption', {},
      t('Dots: heart rate. Upright bars: cuff pressure. A thick edge: used for the result; a broken edge: a close call.'))),
    test.stages.length > 0 && el('div', { class: 'scroll', tabindex: 0, role: 'region', 'aria-label': t('Stages') },
      el('table', {}, el('caption', {}, t('Stages that were finished')),
        el('thead', {}, el('tr', {}, [t('stage'), t('load'), ...names, ''].map(words =>
          el(words ? 'th' : 'td', words ? { scope: 'col' } : {}, words)))),
        el('tbody', {}, test.stages.map(each => el('tr', {}, el('th', { scope: 'row' }, each.name), el('td', {}, each.load),
          names.map(name => el('td', {}, (each.readings.find(reading => reading.name === name) || { value: '' }).value)),
          el('td', {}, [each.used && t('used'), each.marginal && t('close call'), !each.completed && t('broken off')].filter(word => word).join(', ')))))))];
  });
}

function correctable(event) {
  return [(event.readings || []).length > 0 && button(t('Correct entry {0}', event.number), () => amend(event)),
    event.subjects.length > 0 && button(t('Take back entry {0}', event.number), () => takeBack(event))];
}

function last() {
  const event = test.events.at(-1);
  return event && test.phase !== 'ENDED' ? [el('p', {}, t('Recorded at {0}: {1}', event.at, event.words)),
    el('div', { class: 'choices' }, correctable(event).filter(made => made))] : [];
}

function entries() {
  if (test.events.length === 0) return [];
  return [el('details', {}, el('summary', {}, test.events.length === 1 ? t('What was recorded: 1 entry') : t('What was recorded: {0} entries', test.events.length)),
    el('ol', { class: 'entries' }, [...test.events].reverse().map(event => el('li', { value: event.number },
      `${event.at} ${event.words} `, correctable(event)))))];
}

/* ------------------------------------------------------------------ what is asked */

function withReason(title, content, word, send) {
  const reason = el('input', { id: 'reason', autocomplete: 'off' });
  const problem = el('p', { class: 'problem', role: 'alert' });
  const done = async event => {
    event.preventDefault();
    const dialog = openDialog();
    try {
      await send(reason.value);
      if (openDialog() === dialog) close();
    } catch (refused) {
      problem.textContent = refused.message;
    }
  };
  ask(title, [el('form', { onsubmit: done, novalidate: true }, content, field(t('Reason'), reason, t('stands in the record')),
    choices(reasons(), words => { reason.value = words; }), problem,
    el('div', { class: 'choices' }, el('button', { class: 'do', type: 'submit' }, word), button(t('Cancel'), close)))]);
}

function amend(event) {
  const inputs = event.readings.map(reading => el('input', { id: `new-${reading.name}`, autocomplete: 'off',
    value: reading.value.replace(/ .*/, ''), name: `value.${reading.name}`, 'data-was': reading.value.replace(/ .*/, '') }));
  withReason(t('Correct entry {0}', event.number), event.readings.map((reading, place) =>
    field(t('{0} (was {1})', reading.label, reading.value), inputs[place])), t('Correct'), async reason => {
    const different = inputs.filter(input => input.value.trim() !== input.dataset.was);
    if (different.length === 0) throw new Error(t('Nothing was changed.'));
    for (const input of different) {
      await act({ do: 'amend', event: event.number, [input.name]: input.value.trim(), reason });
    }
  });
}

function takeBack(event) {
  withReason(t('Take back entry {0}: {1}', event.number, event.words), [], t('Take back'), reason =>
    act({ do: 'reject', event: event.number, reason }));
}

function stop() {
  const before = test.phase === 'BEFORE';
  ask(before ? t('Break the test off?') : t('Stop the exercise?'), [
    el('p', { class: 'instruction' }, before ? t('The exercise has not begun.') : stopWords()),
    button(before ? t('Yes, break it off') : t('Yes, stop now'), async () => {
      const words = test.decision.kind === 'STOP' ? test.decision.sentence : stopWords();
      await doing({ do: 'stop' });
      if (test.stopped) stopped(words);
    }, { class: 'stop' }), button(t('No, go on'), close)], 'stop');
}

function showStop() {
  const it = test.decision;
  ask(t('STOP'), [el('p', { class: 'instruction' }, it.sentence),
    it.why && el('p', {}, it.why.reason),
    button(t('Stopped: go to recovery'), async () => {
      await doing({ do: 'follow', token: it.token });
      if (test.stopped) stopped(it.sentence);
    }, { class: 'stop' }), button(t('Back to the screen'), close)], 'stop recommended');
}

function stopped(words) {
  ask(t('The exercise is stopped'), [el('p', { class: 'instruction' }, words),
    el('p', {}, test.load ? t('Load now: {0}.', test.load) : ''),
    button(t('The person is looked after'), close, { class: 'do' })], 'stop');
}

/* ------------------------------------------------------------------ what time changes */

function tick() {
  if (!test || !places.head.isConnected) return;
  const at = now();
  const clocks = [['clock', at], ['stage-time', at - test.stageFrom]];
  if (test.phase === 'BEFORE') clocks[1] = ['stage-time', undefined];
  clocks.forEach(([name, time]) => {
    const place = byId(name);
    if (place) place.textContent = time === undefined ? '' : clock(time);
  });
  document.querySelectorAll('[data-until]').forEach(place => {
    place.textContent = clock(Math.ceil(place.dataset.until - at));
  });
  document.querySelectorAll('[data-begin]').forEach(place => {
    const begin = place.dataset.begin - at;
    const dueIn = place.dataset.due - at;
    place.textContent = begin > 0 ? t('begin in {0}', clock(Math.ceil(begin)))
      : dueIn > 0 ? t('now, {0} left', clock(Math.ceil(dueIn))) : t('now');
    if (begin <= 0 && dueIn > 0 && !heard[place.dataset.due]) {
      heard[place.dataset.due] = true;
      sound.begins();
    }
  });
  if (test.phase === 'STAGE') course();
}
