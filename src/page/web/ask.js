// The questions behind the ladder: what next, a set, who plays, keeping, help.
import { button, element, strange } from './element.js';
import { counted, expression, noteList } from './names.js';
import { pitchesOf } from './order.js';
import { carried, handOut, wholePage } from './save.js';
import { addPlayer, atHand, change, changePlayer, filterOf, instrumentId, player, state } from './store.js';
import { choice, openCard } from './tunes.js';
import { isAnswer, kindOf, noAnswer } from './words.js';

/** @typedef {(kind: string, question?: any) => Promise<any>} Ask */

const CAUTION = 'A little often. Stop when it hurts; ask your teacher or a doctor if it goes on.';

/** What to learn next. @param {HTMLElement} root @param {Ask} ask @param {() => boolean} isStale */
export async function drawNext(root, ask, isStale) {
    const who = player();
    if (!who) return root.replaceChildren(element('p', {}, 'Say who plays, and this names the next tune to learn, and what to play again.'), button('Who plays?', () => change({ question: 'players' })));
    const today = new Date().toISOString().slice(0, 10);
    const [answer, again] = await Promise.all([ask('next', { player: who.name, filter: state().filter }), ask('again', { player: who.name, today, filter: {} })]);
    if (isStale()) return;
    const parts = [];
    if (!isAnswer(answer)) parts.push(element('p', { class: 'empty' }, noAnswer(answer)));
    else {
        const picks = answer.picks ?? [];
        if (!picks.length) parts.push(element('p', { class: 'empty' }, 'No tune is left within these notes. Another rung opens more.'));
        for (const [at, pick] of picks.entries()) {
            parts.push(element('div', { class: at ? 'pick' : 'pick first' },
                element('button', { type: 'button', class: 'tune', on: { click: () => openCard(pick.tune?.id ?? pick.id) } },
                    element('span', { class: 'title' }, strange(pick.tune?.title ?? pick.title ?? '')), element('span', { class: 'quiet' }, kindOf(pick.tune ?? pick))),
                button('I’ll learn it', () => changePlayer(who.name, { events: [...who.events, { tune: pick.tune?.id ?? pick.id, on: today, what: 'learning' }] }), at ? {} : { class: 'primary' })));
        }
        parts.push(element('p', { class: 'quiet' }, CAUTION));
    }
    if (isAnswer(again) && again.tunes?.length) {
        parts.push(element('h3', {}, 'To play again'));
        for (const row of again.tunes.slice(0, 3))
            parts.push(element('div', { class: 'pick' },
                element('button', { type: 'button', class: 'tune', on: { click: () => openCard(row.id) } }, element('span', { class: 'title' }, strange(row.title ?? ''))),
                button('It went well', () => changePlayer(who.name, { events: [...who.events, { tune: row.id, on: today, what: 'played' }] })),
                button('Not yet', () => changePlayer(who.name, { events: [...who.events, { tune: row.id, on: today, what: 'shaky' }] }))));
    }
    root.replaceChildren(...parts);
}

const evening = { minutes: 20, rhythm: '' };

/** A set list. @param {HTMLElement} root @param {Ask} ask @param {() => boolean} isStale */
export async function drawSet(root, ask, isStale) {
    const notes = atHand();
    const filter = { ...filterOf(), ...(evening.rhythm ? { rhythm: evening.rhythm } : {}), ...(notes.length ? { fits: [expression(notes)] } : {}) };
    const answer = await ask('evening', { filter, minutes: evening.minutes });
    if (isStale()) return;
    const parts = [
        element('div', { class: 'row' },
            choice('Minutes of playing', [10, 20, 30, 45, 60, 90].map((one) => /** @type {[string, string]} */ ([String(one), `${one} minutes`])), String(evening.minutes), (value) => { evening.minutes = Number(value); change({}); }),
            choice('Kind', [['', 'any'], ...['reel', 'jig', 'hornpipe', 'polka', 'slide', 'waltz'].map((one) => /** @type {[string, string]} */ ([one, one]))], evening.rhythm, (value) => { evening.rhythm = value; change({}); })),
    ];
    if (!isAnswer(answer)) parts.push(element('p', { class: 'empty' }, noAnswer(answer)));
    else if (!answer.sets.length) parts.push(element('p', { class: 'empty' }, 'No set of two tunes lies in these notes yet.'));
    else {
        for (const set of answer.sets)
            parts.push(element('h3', {}, `${set.rhythm}s`.replace('waltzs', 'waltzes').replace('marchs', 'marches').replace(/^./, (/** @type {string} */ sign) => sign.toUpperCase())), element('ol', { class: 'set' },
                ...set.tunes.map((/** @type {any} */ tune) => element('li', {}, element('button', { type: 'button', class: 'tune', on: { click: () => openCard(tune.id) } }, element('span', { class: 'title' }, strange(tune.title)), element('span', { class: 'quiet' }, (tune.key ?? '').replace('#', '♯')))))));
        const minutes = Math.round(answer.seconds / 60);
        parts.push(element('p', { class: 'quiet' }, `${counted(minutes, 'minute')} of playing at an easy pace, each tune three times${answer.filled ? '' : '; there are no more tunes for the rest'}.`));
    }
    root.replaceChildren(...parts);
}

/** Who plays, and what they can play together. @param {HTMLElement} root @param {Ask} ask @param {() => boolean} isStale */
export async function drawPlayers(root, ask, isStale) {
    const players = state().kept.players;
    const name = element('input', { type: 'text', name: 'name', maxlength: 60, required: true, autocomplete: 'off' });
    const form = element('form', { class: 'row', on: { submit: (/** @type {Event} */ event) => {
        event.preventDefault();
        const written = name.value.trim().replace(/\s+/g, ' ');
        if (written && !players.some((/** @type {any} */ one) => one.name.toLowerCase() === written.toLowerCase())) addPlayer(written, instrumentId(), atHand());
        else name.select();
    } } }, element('label', { class: 'field' }, element('span', {}, 'Somebody’s name'), name), button('Add', () => form.requestSubmit()));
    const parts = [
        element('p', {}, players.length ? '' : 'A player has an instrument, notes and tunes of their own. What you touch is tried first, and kept when you say so.'),
        element('ul', { class: 'plain-list' },
            row('You', null, state().notes.length),
            ...players.map((/** @type {any} */ one) => row(one.name, one.name, one.notes?.length ?? 0))),
        form];
    const withNotes = players.filter((/** @type {any} */ one) => one.notes?.length);
    if (withNotes.length > 1) {
        const answer = await ask('together', { filter: { ...state().filter, players: withNotes.map((/** @type {any} */ one) => one.name) } });
        if (isStale()) return;
        parts.push(element('h3', {}, 'Together'));
        if (!isAnswer(answer)) parts.push(element('p', { class: 'empty' }, noAnswer(answer)));
        else parts.push(...together(answer));
    }
    root.replaceChildren(...parts);
}

/** @param {string} words @param {string|null} who @param {number} count */
function row(words, who, count) {
    const isIt = state().who === who;
    return element('li', { class: 'who' }, button(words, () => change({ who }), { class: 'plain', 'aria-pressed': String(isIt) }), element('span', { class: 'quiet' }, `${counted(count, 'note')}${isIt ? ', on the ladder now' : ''}`));
}

/** @param {any} answer */
function together(answer) {
    const open = answer.open_now ?? answer.open ?? answer.playable ?? 0;
    const parts = [element('p', {}, `${counted(open, 'tune lies', 'tunes lie')} in the notes of all of them, of ${counted(answer.tunes, 'tune')}.`)];
    const best = (answer.notes ?? answer.steps ?? [])[0];
    if (best?.add) parts.push(element('p', {}, `${noteList(pitchesOf(best.add))} would open ${counted(best.opens, 'more tune')} for all.`));
    return parts;
}

/** Keep, print, copy, empty. @param {HTMLElement} root @param {() => void} print @param {() => void} empty @param {string} kept */
export function drawKeep(root, print, empty, kept) {
    root.replaceChildren(
        element('p', {}, kept),
        element('dl', { class: 'about' },
            element('dt', {}, button('Save as one file', () => handOut('my-tunes.html', wholePage(), 'text/html'), { class: 'primary' })),
            element('dd', {}, 'This page with all that is in it: tunes, players, notes. It opens anywhere, also offline.'),
            element('dt', {}, button('Print the ladder', print)), element('dd', {}, 'On one sheet, in ink alone.'),
            element('dt', {}, button('Take a copy', () => handOut('gamut-page.json', JSON.stringify(carried(), null, 1), 'application/json'))),
            element('dd', {}, 'The same as data (JSON), for whoever writes programs.'),
            element('dt', {}, button('Empty this page', empty)), element('dd', {}, `${counted(state().files.length, 'file')} and ${counted(state().kept.players.length, 'player')} go from this browser. Save first.`)));
}

/** @param {HTMLElement} root */
export function drawHelp(root) {
    const term = (/** @type {string} */ word, /** @type {string} */ meaning) => [element('dt', {}, word), element('dd', {}, meaning)];
    root.replaceChildren(
        element('h3', {}, 'The ladder'),
        element('dl', { class: 'about' },
            ...term('Full rung', 'a note you have'),
            ...term('Two sockets', 'a note you lack; the hollow bar beside it is as long as the number of tunes it opens'),
            ...term('Next', 'the note that opens most now'),
            ...term('Tried', 'put in for a player and not kept yet'),
            ...term('Bracket', 'notes that open something only together'),
            ...term('Middle, high, low', 'middle begins at middle C, high at the C above it, low ends below middle C')),
        element('h3', {}, 'Keys'),
        element('p', {}, 'In the ladder: Up and Down by rung, Page Up and Page Down by octave, Home and End, Space puts a note in or takes it out, a letter goes to the next rung of that name, with Shift downwards.'),
        element('h3', {}, 'What is read'),
        element('p', {}, 'Files of ABC, of any age and charset, also a folder of them. They are only read. Nothing leaves this device: the page has no way to send anything.'),
        element('h3', {}, 'What only the command line does'),
        element('p', {}, 'Terms on dates and their calendar, handouts and sheets, tunebooks, drills, ladders towards one tune, finding by ear, comparing two versions, weights and wishes for the order of notes, own instruments, checking a collection, backups. It is called gamut and runs on Debian and its kin; `gamut page` makes this page of its library.'),
        element('h3', {}, 'Licences'),
        element('p', {}, 'gamut, the staff writer abcjs, utf8proc, fmt, nlohmann json, toml++: MIT or MIT with other names. xxHash: BSD 2-Clause.'));
}

