// What the page knows, in one frozen value. A change makes a new one and tells whoever draws.

/**
 * @typedef {{name: string, instrument: string|null, notes: number[]|null, events: any[], wishes: number[], unwanted: any[]}} Player
 * @typedef {{name: string, bytes: Uint8Array}} File
 * @typedef {object} State
 * @property {string} title of the tunes: "the sample tunes"
 * @property {boolean} isSample nothing was chosen yet
 * @property {readonly File[]} files
 * @property {any} kept all that people said, see schema/page.md
 * @property {string|null} who the name of a player; null: "You"
 * @property {string|null} instrument of "You"
 * @property {readonly number[]} notes of "You"
 * @property {Readonly<Record<string, readonly number[]>>} tried notes put in or taken out for a player, not kept
 * @property {Readonly<Record<string, any>>} filter as in a question
 * @property {string} sort
 * @property {'ladder'|'tunes'|'ask'} place on a telephone
 * @property {string} question what the right side asks
 * @property {string|null} tune id of the tune whose card is open
 */

const MINE = [57, 59, 62, 64, 66, 67, 69, 71, 74, 76, 78, 79, 81, 83]; // what G major and D major share, A3 to B5

/** @type {State} */
let now = Object.freeze({
    title: 'the sample tunes',
    isSample: true,
    files: [],
    kept: { players: [] },
    who: null,
    instrument: null,
    notes: MINE,
    tried: {},
    filter: {},
    sort: 'notes',
    place: 'ladder',
    question: 'can',
    tune: null,
});

/** @type {((state: State, before: State) => void)[]} */
const listeners = [];

/** @returns {State} */
export const state = () => now;

/** @param {Partial<State>} part */
export function change(part) {
    const before = now;
    now = Object.freeze({ ...now, ...part });
    for (const listener of listeners) listener(now, before);
}

/** @param {(state: State, before: State) => void} listener */
export function listen(listener) {
    listeners.push(listener);
}

/** The player asked about; nothing for "You". @param {State} [of] @returns {Player|undefined} */
export const player = (of = now) => of.kept.players.find((/** @type {Player} */ one) => one.name === of.who);

/** The id of the instrument in the hands, if any. @param {State} [of] @returns {string|null} */
export const instrumentId = (of = now) => (of.who ? (player(of)?.instrument ?? null) : of.instrument);

/** Notes that are kept. @param {State} [of] @returns {Set<number>} */
export const had = (of = now) => new Set(of.who ? (player(of)?.notes ?? []) : of.notes);

/** @param {State} [of] @returns {readonly number[]} */
export const tried = (of = now) => (of.who && of.tried[of.who]) || [];

/** Notes the counts go by: those kept, and those tried. @param {State} [of] @returns {number[]} */
export function atHand(of = now) {
    const notes = had(of);
    for (const pitch of tried(of)) if (!notes.delete(pitch)) notes.add(pitch);
    return [...notes].sort((a, b) => a - b);
}

/** Puts a note in or takes it out. @param {number} pitch */
export function toggle(pitch) {
    const { who } = now;
    if (who === null) {
        const notes = had();
        if (!notes.delete(pitch)) notes.add(pitch);
        change({ notes: [...notes].sort((a, b) => a - b) });
    } else {
        const others = tried().filter((one) => one !== pitch);
        change({ tried: { ...now.tried, [who]: others.length < tried().length ? others : [...others, pitch] } });
    }
}

/** The notes are these, for whoever is asked about. @param {number[]} notes */
export function setNotes(notes) {
    if (now.who === null) change({ notes });
    else changePlayer(now.who, { notes }, { tried: { ...now.tried, [now.who]: [] } });
}

/** What was tried is kept from now on. */
export function keepTried() {
    if (now.who) changePlayer(now.who, { notes: atHand() }, { tried: { ...now.tried, [now.who]: [] } });
}

export function putBack() {
    if (now.who) change({ tried: { ...now.tried, [now.who]: [] } });
}

/** @param {string} name @param {Partial<Player>} part @param {Partial<State>} [more] */
export function changePlayer(name, part, more = {}) {
    const players = now.kept.players.map((/** @type {Player} */ one) => (one.name === name ? { ...one, ...part } : one));
    change({ kept: { ...now.kept, players }, ...more });
}

/** @param {string} name @param {string|null} instrument @param {number[]} notes */
export function addPlayer(name, instrument, notes) {
    /** @type {Player} */
    const added = { name, instrument, notes, events: [], wishes: [], unwanted: [] };
    change({ kept: { ...now.kept, players: [...now.kept.players, added] }, who: name });
}

/** The filter every question shares; the instrument sets what can be reached. @param {State} [of] */
export function filterOf(of = now) {
    const instrument = instrumentId(of);
    return instrument ? { ...of.filter, instrument } : { ...of.filter };
}
