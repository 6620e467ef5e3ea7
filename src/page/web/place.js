// Where a note lies on an instrument: a shape, a number and a word; and the same said in words.
import { drawn, element } from './element.js';

/** @typedef {{note: string, pitch: number, grade: number, ways: any[]}} InstrumentNote */

export class Instrument {
    /** @param {any} answer of `gamut instrument show` */
    constructor(answer) {
        const only = answer.instruments[0];
        this.id = only.id;
        this.title = only.title;
        this.offset = only.sounding_offset;
        this.keys = only.keys;
        /** @type {Map<number, InstrumentNote>} */
        this.notes = new Map(only.notes.map((/** @type {InstrumentNote} */ note) => [note.pitch, note]));
        this.core = only.notes.filter((/** @type {any} */ note) => note.core).map((/** @type {any} */ note) => note.pitch);
        // The row that makes most usual notes is drawn round, the next square, a third six-sided.
        const uses = new Map();
        for (const note of this.notes.values()) {
            const row = note.ways[0].row ?? '';
            uses.set(row, (uses.get(row) ?? 0) + 1);
        }
        this.rows = [...uses.keys()].sort((a, b) => uses.get(b) - uses.get(a));
    }

    /** @param {number} pitch */
    has(pitch) {
        return this.notes.has(pitch);
    }

    /** In words: `B row, button 7, draw`. @param {number} pitch */
    said(pitch) {
        return this.notes.has(pitch) ? waySaid(/** @type {any} */ (this.notes.get(pitch)).ways[0]) : '';
    }

    /** Drawn small; nothing where there is nothing to show. @param {number} pitch */
    place(pitch) {
        const note = this.notes.get(pitch);
        return note ? wayDrawn(this, note.ways[0]) : null;
    }
}

/** @param {any} way */
export function waySaid(way) {
    if (/^[XO|/+h½-]+$/i.test(way.fingering)) return `holes ${way.fingering.replaceAll('|', ' ')}`;
    if (way.row && way.position && way.direction) return `${way.row}, button ${way.position}, ${way.direction}`;
    return way.fingering ?? '';
}

/** @param {Instrument} instrument @param {any} way @returns {any} */
export function wayDrawn(instrument, way) {
    if (!way?.fingering) return null;
    if (/^[XOxo/|+h-]+$/.test(way.fingering)) return element('span', { class: 'place' }, holes(way.fingering + (/overblow/.test(way.technique ?? '') ? '+' : '')));
    if (!way.position || way.position.length > 3)
        return element('span', { class: 'place' }, [way.row, way.position].filter(Boolean).join(', ') || way.fingering);
    if (!way.direction) return element('span', { class: 'place' }, [way.row, way.position].filter(Boolean).join(', '));
    const shape = ['round', 'square', 'six'][Math.min(2, instrument.rows.indexOf(way.row ?? ''))] ?? 'round';
    return element('span', { class: 'place' }, element('span', { class: `spot ${shape}` }, way.position), ` ${way.direction}`);
}

/** Six holes lying, the head to the left; a half-hole half filled, `+` for more breath. @param {string} pattern */
function holes(pattern) {
    const picture = drawn('svg', { class: 'holes', width: 68, height: 12, viewBox: '0 0 68 12', 'aria-hidden': 'true' });
    let x = 5;
    for (const sign of pattern) {
        if (sign === '|') x += 3;
        else if (sign === '+') {
            picture.append(drawn('path', { d: `M${x - 3} 6h6M${x} 3v6`, class: 'breath' }));
            x += 10;
        } else {
            picture.append(drawn('circle', { cx: x, cy: 6, r: 4, class: /x/i.test(sign) ? 'closed' : 'opened' }));
            if (sign !== 'X' && sign !== 'x' && !/o/i.test(sign)) picture.append(drawn('path', { d: `M${x} 2a4 4 0 0 0 0 8z`, class: 'closed' }));
            x += 10;
        }
    }
    return picture;
}
