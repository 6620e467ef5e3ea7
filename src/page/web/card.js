// A tune's card: what it is, what of it is lacking, its bars, its staff, and how it sounds.
import { drawBars, playedOut, usualLength, value } from './bars.js';
import { button, by, element, strange } from './element.js';
import { counted, expression, noteList, noteName, signed } from './names.js';
import { Player, canSound, volume } from './sound.js';
import { atHand, change, changePlayer, instrumentId, player, state } from './store.js';
import { STATES, isAnswer, kindOf, noAnswer } from './words.js';

const STEP = 5; // beats a minute
const SLOWEST = 20;

const heard = new Player();
let tab = 'Bars';
let pace = 0; // beats a minute; 0: as the tune begins
/** @type {number|null} */
let loopBar = null;
let isLooping = false;
let hasDrone = false;
let hasCount = true;
let openId = '';
let wasCautioned = false;

export const stopSound = () => heard.stop();

/**
 * @param {HTMLElement} root
 * @param {(kind: string, question?: any) => Promise<any>} ask
 * @param {() => boolean} isStale
 * @param {import('./place.js').Instrument|null} instrument
 */
export async function drawCard(root, ask, isStale, instrument) {
    const id = /** @type {string} */ (state().tune);
    if (id !== openId) {
        heard.stop();
        [pace, loopBar, isLooping, openId] = [0, null, false, id];
    }
    const notes = atHand();
    const on = instrumentId();
    const question = { tune: id, ...(on ? { instrument: on } : {}), ...(notes.length ? { have: expression(notes) } : {}) };
    const [answer, score] = await Promise.all([ask('tune', question), ask('bars', { tune: id })]);
    const whole = on ? await ask('tune', { tune: id, instrument: on }) : null; // places of notes that are lacked too
    if (isStale()) return;
    if (!isAnswer(answer)) return root.replaceChildren(back(), element('p', {}, noAnswer(answer)));
    const tune = answer.tune;
    const noted = new Set(notes);
    const body = element('div', { class: 'card-body' });
    const show = () => body.replaceChildren(tab === 'Bars' ? barsOf() : tab === 'Staff' ? staffOf(score.abc) : aboutOf(tune, whole?.tune ?? tune));
    const barsOf = () => drawBars(score, {
        ways: (whole?.tune ?? tune).on?.ways ?? [], instrument, notes: noted, width: Math.min(root.clientWidth, 640),
        parts: tune.structure?.parts ?? [], hardest: (whole?.tune ?? tune).on?.hardest_bar ?? null, chosen: loopBar,
        choose: (at) => { loopBar = loopBar === at ? null : at; isLooping = loopBar !== null; show(); foot.replaceWith(foot = footOf()); /** @type {any} */ (root.querySelector(`[aria-pressed=true].bar-number`))?.focus(); },
    });
    const footOf = () => hearOf(score, tune, root, () => foot.replaceWith((foot = footOf())));
    let foot = footOf();
    root.replaceChildren(
        back(),
        element('h2', { class: 'card-title' }, strange(tune.title ?? '')),
        element('p', { class: 'quiet' }, factsOf(tune)),
        verdictOf(tune, noted),
        stateOf(tune),
        element('div', { class: 'tabs', role: 'group', 'aria-label': 'Shown of the tune' },
            ...['Bars', 'Staff', 'About it'].map((name) => button(name, (event) => {
                tab = name;
                for (const one of root.querySelectorAll('.tabs button')) one.setAttribute('aria-pressed', String(one === event.currentTarget));
                show();
            }, { 'aria-pressed': String(tab === name) }))),
        body, foot);
    show();
}

const back = () => button('‹ Back to the tunes', () => { heard.stop(); change({ tune: null, place: 'tunes' }); }, { class: 'plain' });

/** @param {any} tune */
function factsOf(tune) {
    const [low, high] = [Math.min(...tune.pitches), Math.max(...tune.pitches)];
    return [kindOf(tune), tune.meter !== 'none' ? tune.meter : '', tune.pitches.length ? `from ${noteName(low)} to ${noteName(high)}` : '', counted(tune.bars, 'bar'), `in ${tune.file}`].filter(Boolean).join('; ');
}

/** @param {any} tune @param {Set<number>} notes */
function verdictOf(tune, notes) {
    const lacked = tune.pitches.filter((/** @type {number} */ pitch) => !notes.has(pitch));
    if (!tune.pitches.length) return element('p', { class: 'verdict' }, 'No note sounds in it.');
    if (!lacked.length) return element('p', { class: 'verdict' }, element('b', {}, 'You have every note.'));
    const uses = tune.uses.filter((/** @type {any} */ use) => lacked.includes(use.pitch));
    const count = uses.reduce((/** @type {number} */ sum, /** @type {any} */ use) => sum + use.count, 0);
    const strong = uses.reduce((/** @type {number} */ sum, /** @type {any} */ use) => sum + use.strong, 0);
    const fold = tune.on?.fold;
    return element('p', { class: 'verdict' },
        element('b', { class: 'lacks' }, `You lack ${noteList(lacked)}: `),
        `${counted(count, 'time')}${count > 1 ? (strong === 0 ? ', all weak' : `, ${strong} on a strong beat`) : strong ? ', on a strong beat' : ', weak'}.`,
        fold ? ` ${counted(fold.notes, 'note')} played an octave away, and it fits.` : '');
}

/** @param {any} tune */
function stateOf(tune) {
    const who = player();
    const today = new Date().toISOString().slice(0, 10);
    if (!who)
        return element('p', { class: 'state' }, 'Do you know it? ', button('Say who you are', () => change({ tune: null, place: 'ask', question: 'players' }), { class: 'plain' }));
    const last = who.events.filter((event) => event.tune === tune.id && STATES.some(([name]) => name === event.what || event.what === 'forgotten')).at(-1);
    const current = !last || last.what === 'forgotten' ? 'none' : last.what;
    const isWished = who.wishes.includes(tune.id);
    const select = element('select', { 'aria-label': `How ${who.name} stands to this tune`, on: { change: (/** @type {any} */ event) => {
        const what = event.target.value === 'none' ? 'forgotten' : event.target.value;
        changePlayer(who.name, { events: [...who.events, { tune: tune.id, on: today, what }] });
    } } }, ...STATES.map(([name, words]) => element('option', { value: name, selected: name === current }, words)));
    return element('p', { class: 'state' }, element('span', {}, strange(who.name), ' '), select, ' ',
        button(isWished ? 'Wished for' : 'Wish for it', () => changePlayer(who.name, { wishes: isWished ? who.wishes.filter((one) => one !== tune.id) : [...who.wishes, tune.id] }), { 'aria-pressed': String(isWished) }));
}

/** @param {any} tune @param {any} whole */
function aboutOf(tune, whole) {
    /** @type {HTMLElement[]} */
    const rows = [];
    const say = (/** @type {string} */ term, /** @type {any} */ words) => rows.push(element('dt', {}, term), element('dd', {}, words));
    if (tune.titles.length > 1) say('Also called', element('span', {}, ...tune.titles.slice(1).flatMap((/** @type {string} */ title) => [strange(title), ' '])));
    say('Form', tune.form ?? 'unknown');
    say('Notes', tune.notes.map((/** @type {string} */ name) => signed(name)).join(' '));
    if (tune.key_evidence?.length) say('Home note', tune.key_evidence.slice(0, 3).map(signed).join('; '));
    const moves = (whole.on?.moves ?? []).filter((/** @type {any} */ move) => move.semitones !== 0 && move.missing === 0).slice(0, 3);
    if (moves.length) say('Lies well in', moves.map((/** @type {any} */ move) => `${signed(move.key ?? '')} (${Math.abs(move.semitones)} semitones ${move.semitones > 0 ? 'up' : 'down'})`).join(', '));
    if (tune.probably_same?.length) say('Probably the same tune', counted(tune.probably_same.length, 'other'));
    say('Versions', String(tune.setting_count));
    say('From', `${tune.file}, line ${tune.line}`);
    return element('div', {}, element('dl', { class: 'about' }, ...rows), element('details', {}, element('summary', {}, 'As written in ABC'), element('pre', {}, tune.abc ?? '')));
}

/** @param {string} abc */
function staffOf(abc) {
    const made = element('div', { class: 'staff', role: 'img', 'aria-label': 'The tune on a staff' });
    staffWriter().then((writer) => {
        writer.renderAbc(made, withoutWords(abc), { responsive: 'resize', add_classes: true, paddingtop: 4, paddingbottom: 4, paddingleft: 0, paddingright: 0, staffwidth: 560, wrap: { minSpacing: 1.6, maxSpacing: 2.8, preferredMeasuresPerLine: 4 } });
        made.querySelector('svg')?.setAttribute('aria-hidden', 'true');
    }).catch((why) => made.replaceChildren(element('p', {}, `The staff could not be drawn: ${why.message}`)));
    return made;
}

/** The title stands above already, and what else a file says of a tune under About it. @param {string} abc */
const withoutWords = (abc) => abc.replace(/^(?:[A-DF-HNORSTWZw]:|%%(?:text|center|begintext)).*\n?/gm, '');

/** @type {Promise<any>|undefined} */
let writer;

/** Started when a staff is first asked for. */
function staffWriter() {
    writer ??= new Promise((resolve, reject) => {
        const address = URL.createObjectURL(new Blob([by('staff-writer').textContent], { type: 'text/javascript' }));
        const script = element('script', { src: address });
        script.onload = () => resolve(/** @type {any} */ (globalThis).ABCJS);
        script.onerror = () => { writer = undefined; reject(new Error('its part of this page did not start')); };
        document.head.append(script);
    });
    return writer;
}

/** The foot of the card. @param {any} score @param {any} tune @param {HTMLElement} root @param {() => void} again */
function hearOf(score, tune, root, again) {
    if (!canSound() || !tune.pitches.length) return element('div', {});
    const usual = usualLength(score.bars);
    const beats = score.pace?.beats_in_bar ?? Math.max(1, Math.round(usual * 4));
    const easy = score.pace?.easy ?? 80;
    const fastest = Math.round((score.pace?.session ?? 110) * 1.1);
    if (!pace) pace = Math.round((easy * 3) / 4 / STEP) * STEP;
    const word = pace < easy * 0.65 ? 'Very slow' : pace < easy * 0.95 ? 'Slow' : pace < (score.pace?.session ?? 110) * 0.95 ? 'Steady' : 'Session pace';
    const what = loopBar !== null ? `Bar ${score.bars[loopBar].number}, over and over` : isLooping ? 'Whole tune, over and over' : 'Whole tune';
    const unlight = () => root.querySelectorAll('.block.lit').forEach((block) => block.classList.remove('lit'));
    const stop = () => { heard.stop(); unlight(); again(); };
    const start = () => {
        const beat = 60 / pace;
        const seconds = beat / (usual / beats);
        const order = loopBar !== null ? [loopBar] : playedOut(score.bars);
        const notes = order.flatMap((index) => soundsOf(score.bars[index]).map(({ sound, place, length }) => ({ pitch: sound.pitch, seconds: length * seconds, mark: `${index}.${place}` })));
        const tonic = tune.pitches.find((/** @type {number} */ pitch) => signed(tune.tonic ?? '') && pitch % 12 === pitchClass(tune.tonic));
        heard.play(notes, {
            loop: isLooping || loopBar !== null,
            drone: hasDrone && tonic !== undefined ? tonic - 12 : null,
            count: hasCount ? Array(beats).fill(beat) : [],
            light: (mark) => {
                unlight();
                const block = root.querySelector(`[data-at="${mark}"]`);
                block?.classList.add('lit');
                const box = block?.getBoundingClientRect();
                if (box && (box.top < 60 || box.bottom > innerHeight - 170)) block?.scrollIntoView({ block: 'center' });
            },
            ended: () => { unlight(); again(); },
        });
        again();
    };
    const isOn = heard.isPlaying();
    const caution = wasCautioned ? null : element('p', { class: 'quiet' }, 'Starts quietly. With headphones turn it up only as far as needed.');
    const more = element('details', { class: 'more' }, element('summary', {}, 'More'),
        check('Over and over', isLooping, (is) => { isLooping = is; if (!is) loopBar = null; again(); }),
        check('Count one bar in', hasCount, (is) => { hasCount = is; }),
        check('Home note underneath', hasDrone, (is) => { hasDrone = is; }),
        element('label', { class: 'field' }, element('span', {}, 'Loudness'), element('input', { type: 'range', min: 0, max: 1, step: 0.05, value: volume.level, on: { input: (/** @type {any} */ event) => heard.setVolume(Number(event.target.value)) } })));
    return element('div', { class: 'hear' },
        element('p', {}, element('b', {}, `${what}. `), `${word}, ${pace} beats a minute`),
        caution,
        element('div', { class: 'row' },
            button(isOn ? 'Stop' : 'Hear it', () => { if (isOn) stop(); else { wasCautioned = true; start(); } }, { class: 'primary' }),
            button('Slower', () => { pace = Math.max(SLOWEST, pace - STEP); if (isOn) start(); else again(); }),
            button('Faster', () => { pace = Math.min(fastest, pace + STEP); if (isOn) start(); else again(); }), more));
}

/** Sounds with what is tied to them taken together. @param {any} bar */
function soundsOf(bar) {
    /** @type {{sound: any, place: number, length: number}[]} */
    const all = [];
    for (const [place, sound] of bar.sounds.entries()) {
        if (sound.tied && all.length) all[all.length - 1].length += value(sound.length);
        else all.push({ sound, place, length: value(sound.length) });
    }
    return all;
}

/** @param {string} name */
const pitchClass = (name) => (({ C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 })[/** @type {'C'} */ (name[0])] + (name.endsWith('#') ? 1 : name.endsWith('b') && name.length > 1 ? 11 : 0)) % 12;

/** @param {string} label @param {boolean} is @param {(is: boolean) => void} set */
function check(label, is, set) {
    return element('label', { class: 'check' }, element('input', { type: 'checkbox', checked: is, on: { change: (/** @type {any} */ event) => set(event.target.checked) } }), label);
}
