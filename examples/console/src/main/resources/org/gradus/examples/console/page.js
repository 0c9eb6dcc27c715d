// Small help for all parts of the page. Texts are always set as texts, never as HTML.

let language = 'en';
let words = {};

/** The language that is chosen: remembered, else that of the browser. */
export function chosenLanguage() {
  return localStorage.getItem('language') || navigator.language.slice(0, 2);
}

/** Takes a language for everything that is drawn and asked for from now on. */
export async function speak(wanted) {
  const answered = await fetch(`/api/words?language=${encodeURIComponent(wanted)}`).catch(lost).then(answer);
  language = answered.language;
  words = answered.words;
  document.documentElement.lang = language;
  localStorage.setItem('language', language);
  document.querySelector('.skip').textContent = t('To what there is to do');
  return answered.languages;
}

export const spoken = () => language;

/** A text of the page in the language that is chosen; `{0}` and so on are filled in. */
export function t(english, ...values) {
  // Blanks around a sentence are the page's own.
  const key = english.trim();
  return english.replace(key, () => words[key] || key).replace(/\{(\d)\}/g, (_, place) => values[place]);
}

/** An address whose answer is in the language that is chosen. */
export const inLanguage = path => `${path}${path.includes('?') ? '&' : '?'}language=${language}`;

// A figure and its unit stay on one line.
const together = text => text.replace(/(\d) (?=(%|s|min|h|bpm|mmHg|W|N|kp|rpm|mph|km\/h|m\/s|kg|lb|cm|m|mL\/kg\/min|MET)(?![\w/]))/g, '$1\u00a0');
const child = part => (typeof part === 'string' ? together(part) : part);

/** Makes an element: attributes, `on...` listeners, then children, which are texts or elements. */
export function el(name, attributes = {}, ...children) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (value === undefined || value === null || value === false) continue;
    if (key.startsWith('on')) made.addEventListener(key.slice(2), value);
    else if (key === 'value') made.value = value;
    else made.setAttribute(key, value === true ? '' : value);
  }
  made.append(...children.flat(2).filter(part => part !== null && part !== undefined && part !== false).map(child));
  return made;
}

/** Puts children, as those of `el`, in the place of all that was there. */
export function fill(place, ...children) {
  place.replaceChildren(...children.flat(2).filter(child => child));
}

export const byId = id => document.getElementById(id);

/** A button whose key lets it find its focus again when its part is drawn anew. */
export function button(words, act, attributes = {}) {
  return el('button', { type: 'button', 'data-key': words, onclick: act, ...attributes }, words);
}

async function answer(response) {
  const body = await response.json().catch(() => ({ error: t('The console sent no answer.') }));
  if (!response.ok) throw Object.assign(new Error(body.error), { status: response.status });
  return body;
}

const lost = () => { throw new Error(t('The console does not answer. Nothing was recorded; try again.')); };

export const get = path => fetch(inLanguage(path)).catch(lost).then(answer);

export const post = (path, fields) => fetch(inLanguage(path), {
  method: 'POST',
  headers: { 'X-Gradus': 'console', 'Content-Type': 'application/x-www-form-urlencoded' },
  body: new URLSearchParams(fields),
}).catch(lost).then(answer);

/** Seconds as on a stopwatch. */
export function clock(seconds) {
  const whole = Math.max(0, Math.floor(seconds + 1e-6));
  const two = n => String(n).padStart(2, '0');
  const hours = Math.floor(whole / 3600);
  return hours ? `${hours}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`
    : `${Math.floor(whole / 60)}:${two(whole % 60)}`;
}

/** Says something to a screen reader. */
export function say(words) {
  byId('spoken').textContent = words;
}

let asked = 0;

/** Which dialog is open; 0 when none is. */
export const openDialog = () => (byId('box').open ? asked : 0);

/** Shows the only dialog there is; a second one takes the place of the first. */
export function ask(title, content, className = '') {
  const box = byId('box');
  if (box.open) box.close();
  asked += 1;
  box.className = className;
  fill(box, el('h2', { id: 'box-title' }, title), content);
  box.showModal();
  return box;
}

export const close = () => byId('box').open && byId('box').close();

const drawn = new Map();

/** Draws a part of the page anew if what it shows has changed, and keeps the focus in it. */
export function part(place, shows, draw) {
  const text = JSON.stringify(shows);
  if (drawn.get(place) === text) return;
  drawn.set(place, text);
  const inside = place.contains(document.activeElement) ? document.activeElement : null;
  const key = inside && (inside.dataset.key || inside.id);
  fill(place, draw() || []);
  if (key) {
    const again = [...place.querySelectorAll('[data-key], [id]')]
      .find(found => (found.dataset.key || found.id) === key);
    if (again) again.focus();
  }
}

/** A field with its label, and what was wrong with it below. */
export function field(label, input, hint = '') {
  return el('div', { class: 'field' }, el('label', { for: input.id }, label),
    hint && el('span', { class: 'hint', id: `${input.id}-hint` }, hint), input);
}

/** Choices of which one is taken at once, as large buttons; a choice may be a pair of its value and what is shown. */
export function choices(words, take, pressed) {
  return el('div', { class: 'choices' }, words.map(word => (Array.isArray(word) ? word : [word, word])).map(([value, shown]) =>
    button(String(shown), () => take(value), { 'data-value': value,
      ...(pressed === undefined ? {} : { 'aria-pressed': String(pressed === value) }) })));
}
