// What can I play: the tunes within the notes, and those one note short.
import { button, element, strange } from './element.js';
import { lying } from './ladder.js';
import { counted, expression, grouped, noteList, noteName } from './names.js';
import { atHand, change, filterOf, state } from './store.js';
import { isAnswer, kindOf, noAnswer } from './words.js';

const ROWS = 50; // at first, and as many more at each asking
const SHORT_ROWS = 12;

/** Orders of a list. @type {[string, string][]} */
export const SORTS = [['notes', 'Fewest notes first'], ['range', 'Smallest range first'], ['title', 'By title'], ['rhythm', 'By rhythm'], ['key', 'By key']];

const RHYTHMS = ['reel', 'jig', 'slip jig', 'hornpipe', 'polka', 'slide', 'waltz', 'march', 'barndance', 'strathspey', 'mazurka', 'air'];

/** How many rows were asked for, until the question changes. */
let limit = ROWS;

/**
 * @param {HTMLElement} root
 * @param {(kind: string, question?: any) => Promise<any>} ask
 * @param {() => boolean} isStale
 * @param {import('./ladder.js').Shown} shown
 */
export async function drawTunes(root, ask, isStale, shown) {
    const notes = atHand();
    const filter = filterOf();
    const have = expression(notes);
    const [can, short] = await Promise.all([
        notes.length ? ask('tunes', { filter: { ...filter, fits: [have] }, sort: state().sort, limit }) : null,
        notes.length ? ask('tunes', { filter: { ...filter, fits: [have] }, missing: 1, missing_at_least: 1, sort: 'missing', limit: SHORT_ROWS }) : null,
    ]);
    if (isStale()) return;
    const parts = [element('p', { class: 'figure-line on-telephone' }, element('b', { class: 'big' }, grouped(shown.open)), ` of ${counted(shown.tunes, 'tune')} open`), tools()];
    if (can === null) parts.push(element('p', { class: 'empty' }, 'No rung yet. Touch one, or choose your instrument.'));
    else if (!isAnswer(can)) parts.push(element('p', { class: 'empty' }, noAnswer(can)));
    else {
        const span = spanOf([...can.tunes, ...short.tunes]);
        const noted = new Set(notes);
        parts.push(can.tunes.length ? list(can.tunes, noted, span) : nothing(short));
        const matched = can.matched ?? can.tunes.length;
        if (can.tunes.length >= limit && matched !== can.tunes.length)
            parts.push(button(`Show ${grouped(Math.min(ROWS, matched - limit))} more`, () => { limit += ROWS; change({}); }));
        if (short.tunes.length)
            parts.push(
                element('h3', {}, 'One note short'),
                list(short.tunes, noted, span, (row) => element('span', { class: 'lacks' }, 'lacks ', element('b', {}, noteList(row.pitches.filter((/** @type {number} */ pitch) => !noted.has(pitch)))))));
        const away = shown.rungs.reduce((sum, rung) => sum + (rung.have ? 0 : rung.opens), 0);
        const left = shown.tunes - shown.open;
        if (left > 0) parts.push(element('p', { class: 'quiet' }, `${grouped(left)} left out: ${grouped(away)} one note short, ${grouped(left - away)} more than one.`));
    }
    root.replaceChildren(...parts);
}

/** @param {any[]} rows @returns {[number, number]} */
export function spanOf(rows) {
    const all = rows.flatMap((row) => row.pitches);
    return all.length ? [Math.min(...all), Math.max(...all)] : [60, 72];
}

/** @param {any} short */
function nothing(short) {
    const narrowed = Object.keys(state().filter).length;
    return element('p', { class: 'empty' }, narrowed ? 'No tune here passes. Take something away under Narrow.' : short?.tunes?.length ? 'Nothing lies in these notes yet. These are one note away:' : 'Nothing lies in these notes yet. Put in another rung.');
}

/**
 * @param {any[]} rows
 * @param {Set<number>} notes
 * @param {[number, number]} span
 * @param {(row: any) => any} [aside]
 */
export function list(rows, notes, span, aside = (row) => element('span', { class: 'quiet' }, kindOf(row))) {
    return element('ul', { class: 'tunes' },
        ...rows.map((row) =>
            element('li', {},
                element('button', { type: 'button', class: 'tune', on: { click: () => openCard(row.id) } },
                    element('span', { class: 'title' }, strange(row.title ?? '')),
                    lying(row.pitches, notes, span),
                    aside(row)))));
}

/** @param {number} id */
export function openCard(id) {
    change({ tune: String(id), place: 'ask' });
    scrollTo(0, 0);
}

/** Narrow, and the order. */
function tools() {
    const now = state();
    const filter = now.filter;
    const set = (/** @type {string} */ field, /** @type {any} */ value) => {
        const next = { ...filter };
        if (value === '' || value === null) delete next[field];
        else next[field] = value;
        limit = ROWS;
        change({ filter: next });
    };
    const many = Object.keys(filter).length;
    return element('div', { class: 'tools' },
        element('details', { class: 'narrow', open: many > 0 },
            element('summary', {}, many ? `Narrowed by ${counted(many, 'thing')}` : 'Narrow'),
            element('div', { class: 'fields' },
                choice('Kind', [['', 'any'], ...RHYTHMS.map((one) => /** @type {[string, string]} */ ([one, one]))], filter.rhythm ?? '', (value) => set('rhythm', value)),
                choice('Home note', [['', 'any'], ...['C', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'A', 'Bb', 'B'].map((one) => /** @type {[string, string]} */ ([one, one.replace('#', '♯').replace('b', '♭')]))], filter.tonic ?? '', (value) => set('tonic', value)),
                choice('Mode', [['', 'any'], ...['major', 'minor', 'dorian', 'mixolydian'].map((one) => /** @type {[string, string]} */ ([one, one]))], filter.mode ?? '', (value) => set('mode', value)),
                choice('Range', [['', 'any'], ['12', 'an octave at most'], ['15', 'an octave and a third at most']], String(filter.span ?? ''), (value) => set('span', value === '' ? null : Number(value))),
                words('Title', filter.title ?? '', (value) => set('title', value.trim())),
                many ? button('Take all away', () => { limit = ROWS; change({ filter: {} }); }) : null)),
        choice('Order', SORTS, now.sort, (value) => change({ sort: value })));
}

/**
 * @param {string} label
 * @param {[string, string][]} options value and words
 * @param {string} chosen
 * @param {(value: string) => void} choose
 */
export function choice(label, options, chosen, choose) {
    const select = element('select', { name: label, on: { change: (/** @type {any} */ event) => choose(event.target.value) } },
        ...options.map(([value, text]) => element('option', { value, selected: value === chosen }, text)));
    return element('label', { class: 'field' }, element('span', {}, label), select);
}

/** @param {string} label @param {string} value @param {(value: string) => void} done */
export function words(label, value, done) {
    return element('label', { class: 'field' }, element('span', {}, label),
        element('input', { type: 'text', value, name: label, on: { change: (/** @type {any} */ event) => done(event.target.value) } }));
}

/**
 * What one more note opens, note by note.
 * @param {HTMLElement} root
 * @param {(kind: string, question?: any) => Promise<any>} ask
 * @param {() => boolean} isStale
 * @param {import('./ladder.js').Shown} shown
 */
export async function drawOneMore(root, ask, isStale, shown) {
    const notes = atHand();
    const offers = shown.rungs.filter((rung) => !rung.have && rung.opens > 0 && (!shown.instrument || shown.instrument.has(rung.pitch))).sort((a, b) => b.opens - a.opens || a.pitch - b.pitch);
    const parts = [];
    for (const rung of offers.slice(0, 6)) {
        const fits = [expression([...notes, rung.pitch])];
        const answer = await ask('tunes', { filter: { ...filterOf(), fits, uses: [[written(rung.pitch)]] }, sort: state().sort, limit: 3 });
        if (isStale()) return;
        if (!isAnswer(answer)) continue;
        parts.push(
            element('h3', {}, element('b', {}, sentenceOf(rung.pitch)), ` opens ${counted(rung.opens, 'tune')}`),
            list(answer.tunes, new Set([...notes, rung.pitch]), spanOf(answer.tunes)));
    }
    for (const bracket of shown.brackets)
        if (!shown.instrument || bracket.pitches.every((pitch) => shown.instrument?.has(pitch)))
            parts.push(element('p', {}, element('b', {}, noteList(bracket.pitches)), ` open ${counted(bracket.opens, 'more tune')} together.`));
    if (!parts.length) parts.push(element('p', { class: 'empty' }, 'No single note opens a tune from here.'));
    if (isStale()) return;
    root.replaceChildren(...parts);
}

/** @param {number} pitch */
const written = (pitch) => expression([pitch]);
/** @param {number} pitch */
const sentenceOf = (pitch) => noteName(pitch).replace(/^./, (sign) => sign.toUpperCase());
