// What a note is called: a letter, and which octave it lies in.

const LETTERS = ['C', 'C♯', 'D', 'E♭', 'E', 'F', 'F♯', 'G', 'G♯', 'A', 'B♭', 'B'];
const SPOKEN = ['C', 'C sharp', 'D', 'E flat', 'E', 'F', 'F sharp', 'G', 'G sharp', 'A', 'B flat', 'B'];
const WRITTEN = ['C', 'C#', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'G#', 'A', 'Bb', 'B'];

/** @param {number} pitch a MIDI number */
export const letter = (pitch) => LETTERS[pitch % 12];

/** From middle C up it is "middle". @param {number} pitch */
export function octave(pitch) {
    if (pitch < 48) return 'deep';
    if (pitch < 60) return 'low';
    if (pitch < 72) return 'middle';
    return pitch < 84 ? 'high' : 'top';
}

/** `high C♯` @param {number} pitch */
export const noteName = (pitch) => `${octave(pitch)} ${letter(pitch)}`;

/** `high C sharp`, for a voice that reads. @param {number} pitch */
export const spoken = (pitch) => `${octave(pitch)} ${SPOKEN[pitch % 12]}`;

/** As gamut reads it: `C#5`. @param {number} pitch */
export const written = (pitch) => `${WRITTEN[pitch % 12]}${Math.floor(pitch / 12) - 1}`;

/** Notes as gamut reads them. @param {Iterable<number>} pitches */
export const expression = (pitches) => [...pitches].map(written).join(' ');

/** `high C and low A` @param {number[]} pitches */
export function noteList(pitches) {
    const names = pitches.map(noteName);
    return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;
}

/** The letter of a note as a key spells it: `F#` as `F♯`. @param {string} name */
export const signed = (name) => name.replace('##', '𝄪').replace('bb', '𝄫').replace('#', '♯').replace(/(?<=[A-G])b/, '♭');

/** The first letter upper case. @param {string} words */
export const sentence = (words) => words.charAt(0).toUpperCase() + words.slice(1);

/** `1 tune`, `2,009 tunes` @param {number} count @param {string} one @param {string} [many] */
export const counted = (count, one, many = `${one}s`) => `${grouped(count)} ${count === 1 ? one : many}`;

/** `13,161` @param {number} number */
export const grouped = (number) => String(number).replace(/\B(?=(\d{3})+$)/g, ',');
