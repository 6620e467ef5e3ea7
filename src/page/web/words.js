// Sentences of the page that answer what the engine says in tokens.
import { counted, noteList, sentence } from './names.js';

/** Why a question has no answer. @param {any} answer of the engine @returns {string} */
export function noAnswer(answer) {
    if (answer.fault) return `Something here is wrong: ${answer.fault}. What you have is safe.`;
    const { reason, what, others, pitches } = answer.refused;
    switch (reason) {
        case 'in-words': return sentence(what);
        case 'no-notes-yet': return `${what} has no notes yet. Put some in the ladder, and keep them.`;
        case 'unknown-player': return `There is nobody called ${what} here.`;
        case 'two-players': return 'It takes two players. Add another.';
        case 'no-note-in-common': return 'They have no note in common.';
        case 'none-on-instrument': return `None of these is a note of the ${what}.`;
        case 'unknown-tune': return `No tune is called ${what}.`;
        case 'several-tunes': return `Several tunes are called ${what}.`;
        case 'strange-instrument': return `The instrument of ${what} is none this page knows.`;
        case 'no-note': return `No note sounds in ${what}.`;
        case 'nothing-to-follow': return `${what} has no note, so nothing can follow it.`;
        case 'out-of-reach': return `${what} needs ${noteList(pitches)}, which is not on ${others.join(', ')}.`;
        default: return `There is no answer to this: ${reason.replaceAll('-', ' ')}.`;
    }
}

/** Whether it is an answer at all. @param {any} answer */
export const isAnswer = (answer) => answer.refused === undefined && answer.fault === undefined;

/** States a tune can be in, for one player. @type {[string, string][]} */
export const STATES = [
    ['none', 'does not know it yet'],
    ['learning', 'is learning it'],
    ['known', 'knows it'],
    ['rusty', 'is rusty on it'],
];

/** `jig, A dorian` @param {any} row */
export function kindOf(row) {
    const key = row.tonic ? `${row.tonic.replace('#', '♯').replace(/(?<=[A-G])b/, '♭')} ${row.mode}` : '';
    return [row.rhythm, key].filter(Boolean).join(', ');
}

/** What reading came to. @param {{tunes: number, files: number, odd: number, unread: {name: string, why: string}[]}} read */
export function readingDone(read) {
    const parts = [`${counted(read.tunes, 'tune')} in from ${counted(read.files, 'file')}.`];
    if (read.unread.length) parts.push(`${counted(read.unread.length, 'file')} left out.`);
    if (read.odd) parts.push(`${counted(read.odd, 'tune has', 'tunes have')} something odd.`);
    return parts.join(' ');
}
