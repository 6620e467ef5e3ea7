// In which order: the best path of notes as a slider that fills the ladder.
import { button, element } from './element.js';
import { counted, expression, grouped, noteList } from './names.js';
import { atHand, filterOf, toggle } from './store.js';
import { isAnswer, noAnswer } from './words.js';

const ORDINAL = ['', '1st', '2nd', '3rd'];

/** Pitches of names as gamut writes them. @param {string[]} names */
export const pitchesOf = (names) => names.map((name) => {
    const [, letter, signs, octave] = /** @type {any} */ (/^([A-G])([#b]*)(-?\d+)$/.exec(name));
    let pitch = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 }[/** @type {'C'} */ (letter)] + 12 * (Number(octave) + 1);
    for (const sign of signs) pitch += sign === '#' ? 1 : -1;
    return pitch;
});

/**
 * @param {HTMLElement} root
 * @param {(kind: string, question?: any) => Promise<any>} ask
 * @param {() => boolean} isStale
 * @param {(turns: Map<number, string>|null, notes: number[], open: number|null, tunes: number) => void} fill draws the ladder as it stands after some steps
 */
export async function drawOrder(root, ask, isStale, fill) {
    root.replaceChildren(element('p', { class: 'quiet' }, 'Looking for the best order ...'));
    const notes = atHand();
    const question = { filter: filterOf(), ...(notes.length ? { have: expression(notes) } : {}) };
    const answer = await ask('path', { ...question, max_seconds: 4 });
    if (isStale()) return;
    if (!isAnswer(answer)) return root.replaceChildren(element('p', { class: 'empty' }, noAnswer(answer)));
    const steps = answer.steps.map((/** @type {any} */ step) => ({ ...step, pitches: pitchesOf(step.add) }));
    if (!steps.length) return root.replaceChildren(element('p', { class: 'empty' }, 'There is nothing left to learn for these tunes.'));
    const said = element('output', { for: 'steps' });
    const slider = element('input', { type: 'range', id: 'steps', min: 0, max: steps.length, value: 0, step: 1, 'aria-label': 'So many notes learnt' });
    const show = () => {
        const count = Number(slider.value);
        const turns = new Map();
        for (const [at, step] of steps.slice(0, count).entries())
            for (const pitch of step.pitches) turns.set(pitch, `${ORDINAL[at + 1] ?? `${at + 1}th`}: ${grouped(step.opens)}`);
        const open = count ? steps[count - 1].open : answer.open_now;
        const last = count ? `, last ${noteList(steps[count - 1].pitches)}` : '';
        const words = count ? `After ${counted(count, 'note')} ${grouped(open)} of ${counted(answer.tunes, 'tune')}${last}` : `Today ${grouped(open)} of ${counted(answer.tunes, 'tune')}`;
        said.textContent = words;
        slider.setAttribute('aria-valuetext', words);
        fill(count ? turns : null, notes, open, answer.tunes);
    };
    slider.addEventListener('input', show);
    root.replaceChildren(
        element('p', {}, proofSaid(answer)),
        element('div', { class: 'slide' }, element('span', { class: 'quiet' }, 'today'), slider, element('span', { class: 'quiet' }, 'all')),
        element('p', { class: 'figure-line' }, said),
        element('ol', { class: 'steps' },
            ...steps.map((/** @type {any} */ step) =>
                element('li', {},
                    element('b', {}, sentence(noteList(step.pitches))), ` opens ${counted(step.opens, 'tune')}: ${grouped(step.open)} then`,
                    element('span', { class: 'quiet why' }, reason(step))))),
        button('Put the first in my ladder', () => steps[0].pitches.forEach(toggle)));
    show();
}

/** @param {string} words */
const sentence = (words) => words.charAt(0).toUpperCase() + words.slice(1);

/** @param {any} answer */
function proofSaid(answer) {
    if (answer.proof === 'optimal') return 'This order opens most tunes earliest. It is proved: no other does better.';
    const gap = answer.cost > 0 ? Math.ceil((100 * (answer.cost - answer.lower_bound)) / answer.cost) : 0;
    return `The best order found so far; at most ${gap} in 100 from the best there can be.`;
}

/** @param {any} step */
function reason(step) {
    if (step.stall) return ' No single note opens anything here, so these come together.';
    const kinds = Object.entries(step.by_rhythm).filter(([kind]) => kind).sort((a, b) => Number(b[1]) - Number(a[1])).slice(0, 3).map(([kind, count]) => `${count} ${kind}${Number(count) === 1 ? '' : 's'}`.replace(/waltzs/, 'waltzes').replace(/marchs/, 'marches'));
    const other = step.runners_up[0];
    const beside = other ? ` In its place ${noteList(pitchesOf(other.add))} would open ${grouped(other.opens)}.` : '';
    return `${kinds.length ? ` ${kinds.join(', ')}.` : ''}${beside}`;
}
