// What somebody plays, and with which notes: an instrument from a list, then first lessons, a scale, or none to begin with.
import { button, element } from './element.js';
import { counted } from './names.js';
import { change, changePlayer, instrumentId, player, setNotes, state } from './store.js';
import { choice } from './tunes.js';
import { isAnswer, noAnswer } from './words.js';

const SCALES = ['D major', 'G major', 'A major', 'C major', 'F major', 'E minor', 'A dorian', 'E dorian', 'D mixolydian', 'A mixolydian'];

/**
 * @param {HTMLElement} root
 * @param {(kind: string, question?: any) => Promise<any>} ask
 * @param {() => boolean} isStale
 * @param {import('./place.js').Instrument|null} instrument
 */
export async function drawNotes(root, ask, isStale, instrument) {
    const all = await ask('instrument');
    if (isStale()) return;
    const families = new Map();
    for (const one of all.instruments) families.set(one.family, [...(families.get(one.family) ?? []), one]);
    const who = player();
    const choose = (/** @type {string|null} */ id) => (who ? changePlayer(who.name, { instrument: id }) : change({ instrument: id }));
    const select = element('select', { on: { change: (/** @type {any} */ event) => choose(event.target.value || null) } },
        element('option', { value: '', selected: !instrumentId() }, 'anything: every note counts'),
        ...[...families].sort().map(([family, some]) => element('optgroup', { label: family }, ...some.map((/** @type {any} */ one) => element('option', { value: one.id, selected: one.id === instrumentId() }, one.title)))));
    const said = element('p', { class: 'quiet', role: 'status' });
    const take = async (/** @type {string} */ notes) => {
        const answer = await ask('meant', { notes, filter: instrument ? { instrument: instrument.id } : {} });
        if (isAnswer(answer)) setNotes(answer.pitches);
        else said.textContent = noAnswer(answer);
    };
    const easy = instrument ? [...instrument.notes.values()].filter((note) => note.grade <= 1).map((note) => note.pitch) : [];
    const term = instrument ? [...instrument.notes.values()].filter((note) => note.grade <= 2).map((note) => note.pitch) : [];
    root.replaceChildren(
        element('label', { class: 'field' }, element('span', {}, `${who ? who.name : 'You'} ${who ? 'plays' : 'play'}`), select),
        element('h3', {}, 'Which notes have you?'),
        element('p', {}, 'Touch them in the ladder, one by one. Or begin with these:'),
        element('div', { class: 'row' },
            easy.length ? button(`First lessons (${easy.length})`, () => setNotes(easy)) : null,
            term.length > easy.length ? button(`First term (${term.length})`, () => setNotes(term)) : null,
            instrument ? button(`All ${instrument.notes.size}`, () => setNotes([...instrument.notes.keys()])) : null,
            button('None', () => setNotes([]))),
        choice('The notes of a scale', [['', 'choose'], ...SCALES.map((one) => /** @type {[string, string]} */ ([one, one]))], '', (value) => { if (value) void take(value.replace(' ', ':')); }),
        knownTunes(ask),
        said,
        instrument ? element('p', { class: 'quiet' }, `${instrument.title}: ${counted(instrument.notes.size, 'note')}.`) : null);
    for (const empty of root.querySelectorAll('p:empty:not([role])')) empty.remove();
}

/** Notes by tunes that somebody knows. @param {(kind: string, question?: any) => Promise<any>} ask */
function knownTunes(ask) {
    const found = element('ul', { class: 'plain-list' });
    const field = element('input', { type: 'search', name: 'known', on: { input: async () => {
        const title = field.value.trim();
        const answer = title ? await ask('tunes', { filter: { title }, limit: 6 }) : { tunes: [] };
        if (field.value.trim() !== title) return;
        found.replaceChildren(...(answer.tunes ?? []).map((/** @type {any} */ row) => element('li', {}, button(row.title, () => setNotes([...new Set([...(player()?.notes ?? state().notes), ...row.pitches])].sort((a, b) => a - b))))));
    } } });
    return element('div', {}, element('label', { class: 'field' }, element('span', {}, 'Add the notes of a tune you know'), field), found);
}

