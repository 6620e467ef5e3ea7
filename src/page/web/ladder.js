// The ladder: all notes from low to high; a full rung is a note you have, a hollow one beside it a note you lack, as
// long as the number of tunes it would open.
import { by, element } from './element.js';
import { counted, grouped, letter, noteName, octave, spoken } from './names.js';

const MOST_UNFOLDED = 24; // rungs; with more, notes that hardly any tune needs fold into one line
const SELDOM = 100; // fewer than one tune in so many

/**
 * @typedef {object} Rung
 * @property {number} pitch
 * @property {boolean} have
 * @property {number} uses
 * @property {number} opens
 * @typedef {object} Shown
 * @property {number} tunes
 * @property {number} open
 * @property {Rung[]} rungs
 * @property {{pitches: number[], opens: number}[]} brackets
 * @property {Set<number>} tried
 * @property {Map<number, string>} [turns] what the slider of the order says of a rung
 * @property {import('./place.js').Instrument|null} instrument
 */

/** The rung that opens most; the lower of two that open as many. @param {Shown} shown @returns {number[]} pitches, several where only a group opens something */
export function nextOf(shown) {
    let best = null;
    for (const rung of shown.rungs)
        if (!rung.have && rung.opens > 0 && reachable(shown, rung.pitch) && (!best || rung.opens > best.opens)) best = rung;
    if (best) return [best.pitch];
    return shown.brackets.find((one) => one.pitches.every((pitch) => reachable(shown, pitch)))?.pitches ?? [];
}

/** @param {Shown} shown @param {number} pitch */
const reachable = (shown, pitch) => !shown.instrument || shown.instrument.has(pitch);

export class Ladder {
    #root;
    #press;
    /** @type {Map<number, HTMLButtonElement>} */
    #buttons = new Map();
    #layout = '';
    #isUnfolded = false;
    /** @type {number|null} */
    #focus = null;
    /** @type {Shown|null} */
    #shown = null;

    /** @param {HTMLElement} root @param {(pitch: number) => void} press */
    constructor(root, press) {
        this.#root = root;
        this.#press = press;
        root.addEventListener('keydown', (event) => this.#key(event));
        root.addEventListener('focusin', (event) => {
            const pitch = Number(/** @type {HTMLElement} */ (event.target).dataset.pitch);
            if (this.#buttons.has(pitch)) this.#rove(pitch);
        });
        addEventListener('resize', () => this.#shown && this.#bracket(this.#shown));
    }

    /** @param {Shown} shown */
    draw(shown) {
        const next = nextOf(shown);
        const folded = this.#folded(shown, next);
        const layout = shown.rungs.map((rung) => `${rung.pitch}${folded.has(rung.pitch) ? 'f' : ''}`).join() + (shown.instrument?.id ?? '');
        if (layout !== this.#layout) this.#lay(shown, folded);
        this.#root.classList.toggle('placeless', !shown.instrument);
        this.#layout = layout;
        this.#shown = shown;
        const most = Math.max(1, ...shown.rungs.map((rung) => (rung.have ? 0 : rung.opens)));
        for (const rung of shown.rungs) {
            const made = this.#buttons.get(rung.pitch);
            if (made) dress(made, rung, shown, next, most);
        }
        if (this.#focus === null || !this.#buttons.has(this.#focus)) this.#rove(next[0] ?? shown.rungs[0]?.pitch ?? null);
        this.#bracket(shown);
    }

    /** The next rung stands in the middle third of what is seen. @param {number} pitch */
    bringInView(pitch) {
        const made = this.#buttons.get(pitch);
        const frame = this.#root.closest('.ladder-side');
        if (!made || !frame) return;
        if (frame.scrollHeight > frame.clientHeight + 1)
            frame.scrollTop += made.getBoundingClientRect().top - frame.getBoundingClientRect().top - frame.clientHeight / 2;
        else made.scrollIntoView({ block: 'center' });
    }

    /** @param {Shown} shown @param {number[]} next */
    #folded(shown, next) {
        const seldom = new Set();
        if (shown.rungs.length <= MOST_UNFOLDED || this.#isUnfolded) return seldom;
        for (const rung of shown.rungs)
            if (!rung.have && !shown.tried.has(rung.pitch) && !shown.turns?.has(rung.pitch) && !next.includes(rung.pitch) && rung.uses * SELDOM < shown.tunes)
                seldom.add(rung.pitch);
        return seldom.size > 1 ? seldom : new Set();
    }

    /** @param {Shown} shown @param {Set<number>} folded */
    #lay(shown, folded) {
        const kept = this.#focus;
        const hadFocus = this.#root.contains(document.activeElement);
        this.#buttons.clear();
        /** @type {{name: string, rows: HTMLElement[]}[]} */
        const sections = [];
        for (const rung of shown.rungs) {
            const name = octave(rung.pitch);
            if (sections.at(-1)?.name !== name) sections.push({ name, rows: [] });
            if (folded.has(rung.pitch)) continue;
            const made = this.#row(rung, shown);
            this.#buttons.set(rung.pitch, made);
            sections[sections.length - 1].rows.push(element('li', {}, made));
        }
        const fold = folded.size
            ? element('li', {}, element('button', { type: 'button', class: 'fold', on: { click: () => this.#unfold() } }, `${folded.size} notes hardly any tune needs`))
            : null;
        this.#root.replaceChildren(
            ...sections.filter((section) => section.rows.length).map((section) =>
                element('div', { class: 'octave', role: 'group', 'aria-label': section.name },
                    element('ul', { class: 'rungs' }, ...section.rows),
                    element('div', { class: 'octave-name', 'aria-hidden': 'true' }, section.name))),
            ...(fold ? [element('ul', { class: 'rungs' }, fold)] : []),
            element('div', { class: 'bracket', 'aria-hidden': 'true', hidden: true }, element('span', {})));
        this.#root.setAttribute('aria-label', `Notes, low to high: ${counted(this.#buttons.size, 'rung')}`);
        if (kept !== null && this.#buttons.has(kept)) {
            this.#rove(kept);
            if (hadFocus) this.#buttons.get(kept)?.focus();
        }
    }

    #unfold() {
        this.#isUnfolded = true;
        if (this.#shown) this.draw(this.#shown);
        this.#buttons.values().next().value?.focus();
    }

    /** @param {Rung} rung @param {Shown} shown */
    #row(rung, shown) {
        return element('button', { type: 'button', class: 'rung', 'data-pitch': rung.pitch, tabindex: -1, on: { click: () => this.#press(rung.pitch) } },
            element('span', { class: 'name' }, letter(rung.pitch)),
            element('span', { class: 'where' }, shown.instrument?.place(rung.pitch) ?? ''),
            element('span', { class: 'rails' }, element('span', { class: 'socket left' }), element('span', { class: 'bar' }), element('span', { class: 'socket right' })),
            element('span', { class: 'offer' }, element('span', { class: 'ready' })),
            element('span', { class: 'number' }));
    }

    /** @param {number|null} pitch */
    #rove(pitch) {
        if (pitch === null) return;
        for (const [one, made] of this.#buttons) made.tabIndex = one === pitch ? 0 : -1;
        this.#focus = pitch;
    }

    /** @param {KeyboardEvent} event */
    #key(event) {
        const pitches = [...this.#buttons.keys()];
        const at = pitches.indexOf(Number(/** @type {HTMLElement} */ (event.target).dataset.pitch));
        if (at < 0 || event.ctrlKey || event.altKey || event.metaKey) return;
        const to = target(event, pitches, at);
        if (to === undefined) return;
        event.preventDefault();
        const made = this.#buttons.get(pitches[Math.max(0, Math.min(pitches.length - 1, to))]);
        made?.focus();
        made?.scrollIntoView({ block: 'nearest' });
    }

    /** @param {Shown} shown */
    #bracket(shown) {
        const made = /** @type {HTMLElement|null} */ (this.#root.querySelector('.bracket'));
        const best = shown.brackets.find((one) => one.pitches.every((pitch) => this.#buttons.has(pitch) && reachable(shown, pitch)));
        if (!made) return;
        made.hidden = !best || best.opens === 0;
        if (!best || made.hidden) return;
        const tops = best.pitches.map((pitch) => {
            const row = /** @type {HTMLElement} */ (this.#buttons.get(pitch));
            return row.getBoundingClientRect().top - this.#root.getBoundingClientRect().top + row.offsetHeight / 2;
        });
        made.style.top = `${Math.min(...tops)}px`;
        made.style.height = `${Math.max(...tops) - Math.min(...tops)}px`;
        /** @type {HTMLElement} */ (made.firstChild).textContent = `${best.pitches.map(letter).reverse().join(' + ')}: ${grouped(best.opens)} more`;
    }
}

/** Where a key leads. @param {KeyboardEvent} event @param {number[]} pitches @param {number} at */
function target(event, pitches, at) {
    switch (event.key) {
        case 'ArrowUp': return at + 1;
        case 'ArrowDown': return at - 1;
        case 'Home': return 0;
        case 'End': return pitches.length - 1;
        case 'PageUp': {
            const up = pitches.findIndex((pitch) => pitch >= pitches[at] + 12);
            return up < 0 ? pitches.length - 1 : up;
        }
        case 'PageDown': return Math.max(0, pitches.filter((pitch) => pitch <= pitches[at] - 12).length - 1);
        default:
    }
    if (!/^[a-gA-G]$/.test(event.key)) return undefined;
    const step = event.shiftKey ? -1 : 1;
    for (let to = at + step; to >= 0 && to < pitches.length; to += step)
        if (letter(pitches[to]).startsWith(event.key.toUpperCase())) return to;
    return undefined;
}

/** @param {HTMLButtonElement} made @param {Rung} rung @param {Shown} shown @param {number[]} next @param {number} most */
function dress(made, rung, shown, next, most) {
    const isNext = next.includes(rung.pitch) && !shown.turns;
    const isOnIt = reachable(shown, rung.pitch);
    const turn = shown.turns?.get(rung.pitch);
    const kind = !isOnIt ? 'absent' : turn || (shown.tried.has(rung.pitch) && rung.have) ? 'tried' : rung.have ? 'had' : isNext ? 'next' : 'lacked';
    made.className = `rung ${kind}${kind === 'lacked' && rung.opens === 0 ? ' none' : ''}`;
    made.setAttribute('aria-pressed', String(rung.have));
    if (!isOnIt) made.setAttribute('aria-disabled', 'true');
    else made.removeAttribute('aria-disabled');
    made.setAttribute('aria-label', label(rung, shown, kind));
    const ready = /** @type {HTMLElement} */ (made.querySelector('.ready'));
    const share = rung.have || !isOnIt ? 0 : rung.opens / most;
    ready.hidden = share === 0 && kind !== 'next';
    ready.style.setProperty('--share', String(share));
    ready.textContent = kind === 'next' ? 'next' : '';
    const number = /** @type {HTMLElement} */ (made.querySelector('.number'));
    number.textContent = !isOnIt ? 'not on it' : turn ?? (kind === 'tried' ? 'tried' : rung.have ? '' : grouped(rung.opens));
}

/** @param {Rung} rung @param {Shown} shown @param {string} kind */
function label(rung, shown, kind) {
    const where = shown.instrument?.said(rung.pitch);
    const name = where ? `${spoken(rung.pitch)}, ${where},` : `${spoken(rung.pitch)},`;
    const turn = shown.turns?.get(rung.pitch);
    if (kind === 'absent') return `${spoken(rung.pitch)}, not on this instrument.`;
    if (turn) return `${name} ${turn}.`;
    if (kind === 'tried') return `${name} tried, not kept.`;
    if (rung.have) return `${name} have. ${counted(rung.uses, 'tune uses', 'tunes use')} it.`;
    const group = shown.brackets.find((one) => one.pitches.includes(rung.pitch));
    if (rung.opens === 0 && group)
        return `${name} lack. Opens none alone; ${group.opens} with ${group.pitches.filter((pitch) => pitch !== rung.pitch).map(spoken).join(' and ')}.${kind === 'next' ? ' Next best.' : ''}`;
    return `${name} lack. Opens ${rung.opens ? counted(rung.opens, 'tune') : 'none'}.${kind === 'next' ? ' Next best.' : ''}`;
}

/** A ladder lying, as it stands in a list of tunes: 6 px a semitone at most. @param {number[]} pitches @param {Set<number>} notes @param {[number, number]} span */
export function lying(pitches, notes, [low, high]) {
    const made = element('span', { class: 'lying', 'aria-hidden': 'true' });
    for (const pitch of pitches) {
        const mark = element('i', { class: notes.has(pitch) ? 'had' : 'lacked' });
        mark.style.left = `${(100 * (pitch - low)) / Math.max(1, high - low)}%`;
        made.append(mark);
    }
    return made;
}

/** In words, for the line that answers the last touch. @param {number} pitch @param {Shown} before @param {Shown} after */
export function touched(pitch, before, after) {
    const isIn = after.rungs.some((rung) => rung.pitch === pitch && rung.have);
    const more = after.open - before.open;
    const next = nextOf(after);
    const opens = after.rungs.find((rung) => rung.pitch === next[0])?.opens ?? 0;
    const change = more > 0 ? `, ${grouped(more)} more` : more < 0 ? `, ${grouped(-more)} fewer` : '';
    const then = next.length === 1 ? ` Next: ${noteName(next[0])}, ${grouped(opens)}.` : '';
    return `${noteName(pitch)} ${isIn ? 'in' : 'out'}. ${grouped(after.open)} of ${counted(after.tunes, 'tune')} open${change}.${then}`;
}

export const ladderRoot = () => /** @type {HTMLElement} */ (by('ladder'));
