// Before a test: take one up again, or choose a protocol, say who the person is, and open it.
import { el, fill, byId, get, post, button, field, choices, t, speak, spoken } from './page.js';

const names = () => ({
  age: [t('Age'), t('in completed years')], sex: [t('Sex'), t('as the published equations mean it')],
  mass: [t('Body mass'), t('in kg')], height: [t('Height'), t('in cm')],
  measured_max_heart_rate: [t('Measured maximal heart rate'), t('in bpm, if a test has shown it')],
});
const questions = () => ({
  cleared: t('Cleared for this test by your own procedure?'),
  lowers_heart_rate: t('Takes medicine that slows the heart, such as a beta-blocker?'),
});

export async function showStart(main) {
  const [tests, protocols] = await Promise.all([get('/api/tests'), get('/api/protocols')]);
  document.title = t('Gradus console');
  const languages = await speak(spoken());
  const open = tests.filter(test => !test.over);
  const over = tests.filter(test => test.over);
  fill(main, 
    el('h1', {}, t('A test of graded exercise')),
    el('p', { class: 'caution' }, t('Gradus advises a trained person, who decides. It is not a medical device.')),
    languageChoice(main, languages),
    open.length > 0 && list(t('Tests that are not over'), open, 'Go on with {0}'),
    chooser(main, protocols),
    over.length > 0 && list(t('Tests that are over'), over, 'Look at {0}'));
}

// Each language under its own name.
function languageChoice(main, languages) {
  const choice = el('select', { id: 'language' },
    languages.map(one => el('option', { value: one.code, lang: one.code, selected: one.code === spoken() }, one.name)));
  choice.addEventListener('change', async () => { await speak(choice.value); showStart(main); });
  return field(t('Language'), choice);
}

function list(title, tests, verb) {
  return el('section', { 'aria-label': title }, el('h2', {}, title), el('ul', { class: 'plain' },
    tests.map(test => el('li', {}, el('a', { class: 'big', href: `#test/${test.id}` },
      t(verb, test.identity || test.id)), el('span', { class: 'hint' },
      ` ${test.protocol}, ${t('{0} entries', test.events)}`)))));
}

function chooser(main, protocols) {
  const search = el('input', { id: 'search', type: 'search', autocomplete: 'off' });
  const age = el('input', { id: 'for-age', inputmode: 'numeric', autocomplete: 'off', size: 4 });
  const longest = el('input', { id: 'longest', inputmode: 'numeric', autocomplete: 'off', size: 4 });
  const purpose = select('purpose', protocols.map(protocol => protocol.purpose));
  const ergometer = select('ergometer', protocols.map(protocol => protocol.ergometer));
  const found = el('ul', { class: 'plain' });
  const count = el('p', { role: 'status' });
  const draw = () => {
    const words = search.value.toLowerCase().split(/\s+/).filter(word => word);
    const fit = protocols.filter(protocol => {
      const text = `${protocol.id} ${protocol.title} ${protocol.ergometer} ${protocol.purpose}`.toLowerCase();
      return words.every(word => text.includes(word))
        && (!purpose.value || protocol.purpose === purpose.value)
        && (!ergometer.value || protocol.ergometer === ergometer.value)
        && (!+age.value || (protocol.youngest <= +age.value && +age.value <= protocol.oldest))
        && (!+longest.value || protocol.stages <= +longest.value);
    });
    count.textContent = t('{0} of {1} protocols', fit.length, protocols.length);
    found.replaceChildren(...fit.map(protocol => el('li', {},
      button(protocol.title, () => setup(main, protocol), { class: 'big' }),
      el('span', { class: 'hint' }, ` ${t('{0}, {1}, {2} to {3} years, stages of {4} min; at most {5} min with holds and recovery',
        protocol.ergometer, protocol.purpose, protocol.youngest, protocol.oldest, protocol.stages, protocol.longest)}`))));
  };
  [search, age, longest].forEach(input => input.addEventListener('input', draw));
  [purpose, ergometer].forEach(input => input.addEventListener('change', draw));
  draw();
  return el('section', { 'aria-label': t('Choose a protocol') }, el('h2', {}, t('New test: choose a protocol')),
    el('div', { class: 'fields' }, field(t('Search'), search), field(t('Ergometer'), ergometer),
      field(t('Purpose'), purpose), field(t('Age of the person'), age), field(t('Stages of at most this many minutes'), longest)),
    count, found);
}

function select(id, values) {
  return el('select', { id }, el('option', { value: '' }, t('any')),
    [...new Set(values)].sort().map(value => el('option', { value }, value)));
}

function setup(main, protocol) {
  const given = {};
  const inputs = [el('input', { id: 'identity', name: 'identity', autocomplete: 'off' })];
  const fields = [field(t('Name or number'), inputs[0], t('stands in the record and in the report; may be left out'))];
  for (const [name, [label, hint]] of Object.entries(names())) {
    const needed = protocol.needs.includes(name);
    const words = needed ? t('{0}; needed', hint) : hint;
    if (name === 'sex') {
      fields.push(group(label, words, [['female', t('female')], ['male', t('male')]], value => { given.sex = value; }));
    } else {
      const input = el('input', { id: name, name, inputmode: 'decimal', autocomplete: 'off', required: needed });
      inputs.push(input);
      fields.push(field(label, input, words));
    }
  }
  for (const [name, words] of Object.entries(questions())) {
    fields.push(group(words, '', [['yes', t('yes')], ['no', t('no')]], value => { given[name] = value; }));
  }
  const settings = protocol.settings.map(setting => {
    const input = el('input', { id: `setting.${setting.name}`, name: `setting.${setting.name}`,
      value: setting.value, autocomplete: 'off', 'data-was': setting.value });
    inputs.push(input);
    return field(`${setting.label}${setting.unit ? `, ${setting.unit}` : ''}`, input, setting.allowed);
  });
  const problem = el('p', { class: 'problem', role: 'alert' });
  const open = async event => {
    event.preventDefault();
    const form = { protocol: protocol.id, ...given };
    inputs.forEach(input => {
      if (input.value.trim() && input.value !== input.dataset.was) form[input.name] = input.value.trim();
    });
    try {
      location.hash = `#test/${(await post('/api/tests', form)).id}`;
    } catch (refused) {
      problem.textContent = refused.message;
    }
  };
  fill(main, el('h1', {}, protocol.title),
    el('p', {}, button(t('Choose another protocol'), () => { location.reload(); })),
    el('form', { onsubmit: open, novalidate: true },
      el('h2', {}, t('The person')), el('div', { class: 'fields' }, fields),
      settings.length > 0 && el('details', {}, el('summary', {}, t('Settings of the protocol')),
        el('div', { class: 'fields' }, settings)),
      protocol.cautions.length > 0 && el('ul', {}, protocol.cautions.map(words => el('li', {}, words))),
      problem, el('button', { class: 'do', type: 'submit' }, t('Open the test'))));
  byId('main').focus();
}

function group(label, hint, words, take) {
  const box = el('fieldset', { class: 'field' }, el('legend', {}, label), hint && el('span', { class: 'hint' }, hint));
  const draw = pressed => {
    const old = box.querySelector('.choices');
    const made = choices(words, word => { take(word); draw(word); }, pressed || null);
    if (old) old.replaceWith(made); else box.append(made);
    if (pressed) [...made.children].find(child => child.dataset.value === pressed).focus();
  };
  draw();
  return box;
}
