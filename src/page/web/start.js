// The page: puts the parts together, asks when something changed, and draws what comes back.
import { carried, filesOf } from './save.js';
import { drawHelp, drawKeep, drawNext, drawPlayers, drawSet } from './ask.js';
import { drawCard, stopSound } from './card.js';
import { bytesOf, foundAmong, foundIn, readAll } from './drop.js';
import { button, by, element, strange } from './element.js';
import { Engine } from './engine.js';
import { fetchKept, forgetKept, keepIt } from './keep.js';
import { Ladder, nextOf, touched } from './ladder.js';
import { counted, grouped, noteList, sentence } from './names.js';
import { drawNotes } from './notes.js';
import { drawOrder } from './order.js';
import { Instrument } from './place.js';
import { atHand, change, filterOf, had, instrumentId, keepTried, listen, player, putBack, state, toggle, tried } from './store.js';
import { drawOneMore, drawTunes } from './tunes.js';
import { isAnswer, noAnswer, readingDone } from './words.js';

const SPEAK_AFTER = 600; // milliseconds between two sentences that are read aloud
const KEEP_AFTER = 800; // milliseconds of quiet, after which the browser keeps what there is

/** Questions: their word in the row, and their heading. @type {Record<string, [string, string]>} */
const QUESTIONS = {
    can: ['Can play', 'What can I play?'],
    note: ['One more note', 'Which note next?'],
    order: ['Which order', 'In which order?'],
    next: ['What next', 'What do I learn next?'],
    set: ['A set', 'A set list'],
    players: ['Who plays', 'Who plays?'],
    notes: ['Set notes', 'Instrument and notes'],
    keep: ['Keep and print', 'Keep and print'],
    help: ['Help', 'Help'],
};

const page = JSON.parse(by('library').textContent);
/** @type {Engine} */
let engine;
/** @type {Ladder} */
let ladder;
/** @type {Map<string, Instrument>} */
const instruments = new Map();
/** @type {import('./ladder.js').Shown|null} */
let shown = null;
/** @type {number|null} */
let lastTouched = null;
let revision = 0;
let keptWords = '';

/** @param {string} kind @param {any} [question] */
const ask = (kind, question) => engine.ask(kind, question);

// --- what is drawn

async function draw() {
    const mine = ++revision;
    const isStale = () => mine !== revision;
    drawSentence();
    drawPlaces();
    const instrument = await instrumentOf(instrumentId());
    const pitches = atHand();
    const answer = await ask('rungs', { filter: filterOf(), pitches });
    if (isStale()) return;
    if (!isAnswer(answer)) return say(noAnswer(answer), true);
    const kept = had();
    /** @type {import('./ladder.js').Shown} */
    const next = { ...answer, tried: new Set(tried().filter((pitch) => !kept.has(pitch))), instrument };
    const before = shown;
    shown = next;
    ladder.draw(next);
    drawFigure(next.open, next.tunes);
    drawLine(before, next);
    await drawPanel(isStale, next);
}

/** @param {number} open @param {number} tunes */
function drawFigure(open, tunes) {
    by('figure').replaceChildren(element('b', { class: 'big' }, grouped(open)), ` of ${counted(tunes, 'tune')} open`);
}

function drawSentence() {
    const now = state();
    const who = player();
    const instrument = instrumentId();
    const named = instrument ? (instruments.get(instrument)?.title ?? instrument) : 'anything';
    const slot = (/** @type {any} */ words, /** @type {string} */ question) => element('button', { type: 'button', class: 'slot', on: { click: () => goTo(question) } }, words);
    by('sentence').replaceChildren(
        slot(who ? strange(who.name) : 'You', 'players'), who ? ' plays ' : ' play ',
        slot(named.split(',')[0], 'notes'), ' from ', slot(strange(now.title), 'keep'));
    by('first').replaceChildren(...(now.isSample ? firstWords() : []));
}

function firstWords() {
    return [
        element('p', { class: 'lead' }, 'Which tunes can you play, and which note next?'),
        element('p', {}, 'Choose your folder of ABC tunes. It is only read, and nothing leaves this device.'),
        element('div', { class: 'row' }, chooser('Choose my tunes', { class: 'primary' }), element('span', { class: 'quiet' }, 'Or try it on the sample tunes below. Touch a rung.')),
    ];
}

/** A button that asks for files. @param {string} words @param {any} more */
function chooser(words, more) {
    const isFolder = matchMedia('(pointer: fine)').matches;
    const input = element('input', { type: 'file', multiple: true, webkitdirectory: isFolder, hidden: true, tabindex: -1, 'aria-hidden': 'true', on: { change: () => void take(foundAmong(input.files)) } });
    return element('span', {}, button(words, () => input.click(), more), input);
}

function drawPlaces() {
    const now = state();
    document.body.dataset.place = now.tune ? 'ask' : now.place;
    document.body.dataset.card = String(Boolean(now.tune));
    const places = /** @type {['ladder'|'tunes'|'ask', string][]} */ ([['ladder', 'Ladder'], ['tunes', 'Tunes'], ['ask', 'Ask']]);
    refill(by('places'), places.map(([place, word]) => button(word, () => goToPlace(place), { 'data-word': word, 'aria-current': (now.tune ? 'ask' : now.place) === place ? 'page' : false })));
    refill(by('questions'), Object.entries(QUESTIONS).map(([id, [word]]) => button(word, () => goTo(id), { 'data-word': word, 'aria-current': !now.tune && now.question === id ? 'page' : false })));
}

/** Draws anew without losing the focus. @param {HTMLElement} root @param {HTMLElement[]} children */
function refill(root, children) {
    const focused = root.contains(document.activeElement) ? /** @type {HTMLElement} */ (document.activeElement).dataset.word : null;
    root.replaceChildren(...children);
    if (focused) children.find((one) => one.dataset.word === focused)?.focus();
}

/** @param {'ladder'|'tunes'|'ask'} place */
function goToPlace(place) {
    stopSound();
    change({ place, tune: null, question: place === 'tunes' ? 'can' : place === 'ask' && state().question === 'can' ? 'note' : state().question });
    scrollTo(0, 0);
}

/** @param {string} question */
function goTo(question) {
    stopSound();
    change({ question, tune: null, place: question === 'can' ? 'tunes' : 'ask' });
    scrollTo(0, 0);
}

/** @param {() => boolean} isStale @param {import('./ladder.js').Shown} now */
async function drawPanel(isStale, now) {
    const panel = by('panel');
    const { question, tune } = state();
    by('heading').textContent = tune ? 'The tune' : QUESTIONS[question][1];
    by('heading').hidden = Boolean(tune);
    panel.dataset.question = tune ? 'card' : question;
    if (tune) return drawCard(panel, ask, isStale, now.instrument);
    switch (question) {
        case 'can': return drawTunes(panel, ask, isStale, now);
        case 'note': return drawOneMore(panel, ask, isStale, now);
        case 'order': return drawOrder(panel, ask, isStale, fillLadder);
        case 'next': return drawNext(panel, ask, isStale);
        case 'set': return drawSet(panel, ask, isStale);
        case 'players': return drawPlayers(panel, ask, isStale);
        case 'notes': return drawNotes(panel, ask, isStale, now.instrument);
        case 'keep':
            drawKeep(panel, () => print(), () => void empty(), keptWords);
            return panel.prepend(element('div', { class: 'row' }, chooser('Choose tunes', {})));
        default: return drawHelp(panel);
    }
}

/** The ladder as it stands after some steps of the order. @param {Map<number, string>|null} turns @param {number[]} notes @param {number|null} open @param {number} tunes */
function fillLadder(turns, notes, open, tunes) {
    if (!shown) return;
    const have = new Set([...notes, ...(turns?.keys() ?? [])]);
    ladder.draw({ ...shown, rungs: shown.rungs.map((rung) => ({ ...rung, have: have.has(rung.pitch) })), brackets: turns ? [] : shown.brackets, turns: turns ?? undefined });
    if (open !== null) drawFigure(open, tunes);
}

// --- the line at the foot, and what is read aloud

/** @param {import('./ladder.js').Shown|null} before @param {import('./ladder.js').Shown} now */
function drawLine(before, now) {
    const next = nextOf(now);
    const count = tried().length;
    const doing = count
        ? [button('Keep', () => keepTried(), { class: 'primary' }), button('Put back', () => putBack())]
        : next.length === 1 ? [button(`See the ${grouped(now.rungs.find((rung) => rung.pitch === next[0])?.opens ?? 0)}`, () => goTo('note'))] : [];
    by('doing').replaceChildren(...doing);
    if (lastTouched !== null && before) say(sentence(touched(lastTouched, before, now)), true);
    else if (next.length) {
        const opens = next.length === 1 ? (now.rungs.find((rung) => rung.pitch === next[0])?.opens ?? 0) : now.brackets[0].opens;
        const where = next.length === 1 ? now.instrument?.said(next[0]) : '';
        by('said').replaceChildren(element('b', {}, sentence(noteList(next))), ` ${next.length > 1 ? 'together open' : 'opens'} ${grouped(opens)}`, ...(where ? [element('span', { class: 'quiet' }, where)] : []));
    } else by('said').textContent = 'Every tune that can be played is open.';
    lastTouched = null;
    if (notice) {
        by('said').textContent = notice.words;
        if (notice.more) by('doing').replaceChildren(notice.more);
    }
}

/** What stands at the foot until the next touch. @type {{words: string, more?: HTMLElement}|null} */
let notice = null;

/** @param {string} words @param {HTMLElement} [more] */
function notify(words, more) {
    notice = { words, more };
    say(words, true);
    if (more) by('doing').replaceChildren(more);
}

let spokenAt = 0;
/** @type {ReturnType<typeof setTimeout>|undefined} */
let speaking;

/** @param {string} words @param {boolean} aloud */
function say(words, aloud) {
    by('said').textContent = words;
    if (!aloud) return;
    clearTimeout(speaking);
    speaking = setTimeout(() => {
        spokenAt = performance.now();
        by('live').textContent = words;
    }, Math.max(0, spokenAt + SPEAK_AFTER - performance.now()));
}

// --- files in, and what is kept

/** @param {string|null} id */
async function instrumentOf(id) {
    if (!id) return null;
    if (!instruments.has(id)) {
        const answer = await ask('instrument', { instrument: id });
        if (!isAnswer(answer)) return null;
        instruments.set(id, new Instrument(answer));
        drawSentence();
    }
    return instruments.get(id) ?? null;
}

/** Files that came are added, or take the place of one of the same name. @param {import('./drop.js').Found[]} found */
async function take(found) {
    if (!found.length) return notify('No ABC file is among these.');
    const { files, unread } = await bytesOf(found);
    const names = new Set(files.map((file) => file.name));
    const now = state();
    const all = now.isSample ? files : [...now.files.filter((file) => !names.has(file.name)), ...files].sort((a, b) => (a.name < b.name ? -1 : 1));
    const read = await readAll(engine, all, (words, isSettled) => {
        say(words, false);
        if (isSettled) void draw();
    });
    read.unread.push(...unread);
    if (!read.tunes) {
        await load(now.files);
        return notify(`No tune is in ${found.length === 1 ? found[0].name : 'these files'}; ${read.unread[0] ? `${read.unread[0].name} ${read.unread[0].why}` : 'nothing changed'}.`);
    }
    const kept = now.isSample ? { players: now.kept.players.map((/** @type {any} */ one) => ({ ...one, events: [], wishes: [], unwanted: [] })) } : now.kept;
    await engine.keep(kept);
    const what = element('details', {}, element('summary', {}, 'See what'), element('ul', {}, ...read.unread.slice(0, 20).map(({ name, why }) => element('li', {}, strange(name), ` ${why}`))));
    change({ files: all, isSample: false, title: 'my tunes', kept, filter: {} });
    notify(readingDone(read), read.unread.length ? what : undefined);
}

/** @param {readonly {name: string, bytes: Uint8Array}[]} files */
async function load(files) {
    const read = await readAll(engine, files, (words) => say(words, false));
    await engine.keep(state().kept);
    return read;
}

/** @type {ReturnType<typeof setTimeout>|undefined} */
let keeping;

function keepSoon() {
    clearTimeout(keeping);
    if (state().isSample) return;
    keeping = setTimeout(async () => {
        const isKept = await keepIt(pageName(), carried());
        keptWords = isKept ? 'This browser keeps it between visits.' : 'This browser keeps nothing between visits. Save as one file before you close.';
        document.body.dataset.kept = String(isKept);
    }, KEEP_AFTER);
}

/** Two pages in one browser are two collections. */
const pageName = () => `${location.origin}${location.pathname}`;

async function empty() {
    await forgetKept(pageName());
    location.reload();
}

// --- start

async function start() {
    ladder = new Ladder(by('ladder'), (pitch) => {
        lastTouched = pitch;
        notice = null;
        toggle(pitch);
    });
    engine = new Engine(by('worker').textContent, by('engine').textContent);
    await engine.ready;
    const kept = await fetchKept(pageName());
    const library = kept ?? page;
    const files = filesOf(library);
    change({
        title: library.title, isSample: Boolean(library.is_sample), files, kept: library.kept ?? { players: [] },
        ...(library.shown ? { who: library.shown.who, instrument: library.shown.instrument, notes: library.shown.notes } : {}),
    });
    await load(files);
    listen((now, before) => {
        if (now.kept !== before.kept) void engine.keep(now.kept);
        if (now.kept !== before.kept || now.files !== before.files || now.notes !== before.notes || now.who !== before.who || now.instrument !== before.instrument) keepSoon();
        void draw().catch(broken);
    });
    await draw();
    if (!state().isSample || matchMedia('(min-width: 900px)').matches) ladder.bringInView(nextOf(/** @type {any} */ (shown))[0] ?? 0);
    document.body.dataset.ready = 'true';
}

/** Our own fault: one calm banner, with text to copy. @param {any} why */
function broken(why) {
    by('figure').replaceChildren();
    by('panel').replaceChildren(
        element('p', {}, element('b', {}, 'Something in this page went wrong. '), why?.name === 'EngineFault' ? why.message : 'Your files are as they were.'),
        element('pre', {}, String(why?.stack ?? why)));
    document.body.dataset.ready = 'broken';
}

for (const kind of ['dragover', 'drop'])
    addEventListener(kind, (event) => {
        event.preventDefault();
        if (kind === 'drop') void foundIn(/** @type {any} */ (event).dataTransfer).then(take).catch(broken);
    });

addEventListener('keydown', (event) => {
    if (event.key === 'Escape' && tried().length && /** @type {HTMLElement} */ (event.target).closest('#ladder')) {
        if (tried().length === 1 || confirm(`Put back ${tried().length} notes?`)) putBack();
    }
});

start().catch(broken);

