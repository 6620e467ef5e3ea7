// A tune walks on the ladder: a bar is a row, width is time, and each note a block that stands as high as it sounds.
import { button, element } from './element.js';
import { signed, spoken } from './names.js';
import { wayDrawn } from './place.js';

const NARROWEST = 40; // px of a quaver; a bar with narrower ones breaks in the middle
const A_SEMITONE = 2; // px
const HIGHEST = 48; // px between the lowest and the highest block at most

/** @param {[number, number]|null} length */
export const value = (length) => (length ? length[0] / length[1] : 0);

/** How long a bar is, rests and all. @param {any} bar */
export const lengthOf = (bar) => Math.max(value(bar.length), ...bar.sounds.map((/** @type {any} */ sound) => value(sound.at) + value(sound.length)), 0);

/**
 * @param {any} score the shape `bars`
 * @param {{ways: any[], instrument: import('./place.js').Instrument|null, notes: Set<number>, width: number, parts: any[], hardest: number|null, chosen: number|null, choose: (at: number) => void}} how
 */
export function drawBars(score, how) {
    const pitches = score.bars.flatMap((/** @type {any} */ bar) => bar.sounds.map((/** @type {any} */ sound) => sound.pitch)).filter((/** @type {any} */ pitch) => pitch !== null);
    const low = Math.min(...pitches);
    const step = Math.min(A_SEMITONE, HIGHEST / Math.max(1, Math.max(...pitches) - low));
    const frame = { low, step, height: Math.ceil(step * (Math.max(...pitches) - low)) };
    const usual = usualLength(score.bars);
    const made = [];
    for (const [at, bar] of score.bars.entries()) {
        const part = how.parts.find((one) => one.first_bar === bar.number && firstOf(score.bars, bar.number) === at);
        if (part) made.push(element('h3', { class: 'part' }, element('b', {}, `Part ${part.label}`), part.repeated ? ', played twice' : ''));
        if (bar.sounds.length) made.push(oneBar(bar, at, usual, frame, how));
    }
    return element('div', { class: 'bars' }, ...made);
}

/** @param {any[]} bars @param {number} number */
const firstOf = (bars, number) => bars.findIndex((bar) => bar.number === number);

/** @param {any[]} bars */
export function usualLength(bars) {
    const counts = new Map();
    for (const bar of bars) counts.set(lengthOf(bar), (counts.get(lengthOf(bar)) ?? 0) + 1);
    return [...counts].sort((a, b) => b[1] - a[1] || b[0] - a[0])[0]?.[0] || 1;
}

/** @param {any} bar @param {number} at @param {number} usual @param {{low: number, step: number, height: number}} frame @param {any} how */
function oneBar(bar, at, usual, frame, how) {
    const whole = Math.max(usual, lengthOf(bar));
    const breaks = (how.width - 40) * (1 / 8 / whole) < NARROWEST && lengthOf(bar) > whole / 2 ? [0, whole / 2, whole] : [0, whole];
    const rows = [];
    for (let row = 0; row + 1 < breaks.length; ++row) rows.push(oneRow(bar, at, breaks[row], breaks[row + 1], frame, how));
    const names = bar.sounds.map((/** @type {any} */ sound) => (sound.pitch === null ? 'rest' : spoken(sound.pitch))).join(', ');
    const isChosen = how.chosen === at;
    return element('div', { class: `bar-row${how.hardest === bar.number ? ' hardest' : ''}` },
        button(bar.number === 0 ? '·' : String(bar.number), () => how.choose(at), {
            class: 'bar-number',
            'aria-pressed': String(isChosen),
            'aria-label': `${bar.number === 0 ? 'Pick-up' : `Bar ${bar.number}`}: ${names}.${bar.ending ? ` Ending ${bar.ending}.` : ''}${how.hardest === bar.number ? ' The hardest bar.' : ''} ${isChosen ? 'Played over and over.' : 'Play it over and over.'}`,
        }),
        element('div', { class: 'bar-body', 'aria-hidden': 'true' },
            bar.ending ? element('span', { class: 'ending' }, `ending ${bar.ending}`) : null,
            how.hardest === bar.number ? element('span', { class: 'ending' }, 'the hardest bar') : null,
            ...rows));
}

/** @param {any} bar @param {number} index @param {number} from @param {number} to @param {{low: number, step: number, height: number}} frame @param {any} how */
function oneRow(bar, index, from, to, frame, how) {
    const row = element('div', { class: 'blocks' });
    row.style.height = `${frame.height + 30}px`;
    const places = element('div', { class: 'under' });
    const bellows = element('div', { class: 'bellows' });
    const percent = (/** @type {number} */ time) => (100 * (time - from)) / (to - from);
    let direction = '';
    for (const [place, sound] of bar.sounds.entries()) {
        const start = value(sound.at);
        if (start < from - 1e-9 || start >= to - 1e-9) continue;
        const end = Math.min(start + value(sound.length), to);
        const isRest = sound.pitch === null;
        const isLacked = !isRest && !how.notes.has(sound.pitch);
        const block = element('span', { class: `block${isRest ? ' rest' : isLacked ? ' lacked' : ''}`, 'data-at': `${index}.${place}` }, isRest ? '' : signed(sound.name));
        put(block, percent(start), percent(end));
        block.style.bottom = `${isRest ? 0 : Math.round((sound.pitch - frame.low) * frame.step)}px`;
        row.append(block);
        const way = sound.way === null || sound.way === undefined ? null : how.ways[sound.way];
        if (!way?.fingering || !how.instrument) continue;
        const drawn = wayDrawn(how.instrument, way);
        if (drawn) {
            const under = element('span', { class: 'beneath' }, drawn.querySelector('.spot, .holes') ?? drawn.textContent);
            put(under, percent(start), percent(end));
            places.append(under);
        }
        if (way.direction) {
            const line = element('span', { class: `air ${way.direction === 'draw' ? 'draw' : 'press'}` }, way.direction === direction ? '' : way.direction);
            put(line, percent(start), percent(end));
            bellows.append(line);
            direction = way.direction;
        }
    }
    return element('div', { class: 'bar-line' }, row, places.childElementCount ? places : null, bellows.childElementCount ? bellows : null);
}

/** @param {HTMLElement} made @param {number} from @param {number} to */
function put(made, from, to) {
    made.style.left = `${from}%`;
    made.style.width = `calc(${to - from}% - 3px)`;
}

/** Indexes of bars as they are played: repeats and endings played out. @param {any[]} bars */
export function playedOut(bars) {
    const order = [];
    let start = 0;
    let pass = 1;
    for (let at = 0; at < bars.length; ) {
        const bar = bars[at];
        if (bar.opens && pass === 1) start = at;
        if (bar.ending && !bar.ending.split(',').map(Number).includes(pass)) {
            // To the end of this ending.
            let to = at;
            while (to < bars.length && !bars[to].closes && !bars[to].ends_part && !(to > at && bars[to].ending)) ++to;
            at = to > at && bars[to]?.ending ? to : to + 1;
            if (bars[at - 1]?.closes && pass > 1 && !bars[at]?.ending) pass = 1;
            continue;
        }
        order.push(at);
        if (bar.closes && pass === 1) {
            pass = 2;
            at = start;
            continue;
        }
        if (bar.closes || bar.ends_part) {
            const goesOn = pass > 1 && bar.ending === '' && bars[at + 1]?.ending;
            if (!goesOn) {
                pass = 1;
                start = at + 1;
            }
        }
        ++at;
        if (order.length > 17 * bars.length) break;
    }
    return order;
}
