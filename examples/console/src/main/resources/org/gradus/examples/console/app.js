// Shows the part of the console that the address names.
import { byId, el, t, speak, chosenLanguage } from './page.js';
import { showStart } from './start.js';
import { showTest, leaveTest } from './live.js';

async function show() {
  await speak(chosenLanguage()).catch(() => {});
  leaveTest();
  byId('bar').replaceChildren();
  const main = byId('main');
  const test = location.hash.match(/^#test\/([a-z0-9-]+)$/);
  try {
    if (test) await showTest(main, test[1]);
    else await showStart(main);
  } catch (problem) {
    main.replaceChildren(el('h1', {}, t('This does not work')), el('p', { role: 'alert' }, problem.message),
      el('p', {}, el('a', { href: '#' }, t('To the start'))));
  }
}

addEventListener('hashchange', show);
show();
