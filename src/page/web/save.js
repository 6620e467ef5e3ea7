// The page as one file, with all that is in it. Written from the page as it came and from what it knows, never from
// what it shows.
import { state } from './store.js';

const LIBRARY = /(<script type="application\/json" id="library">)[\s\S]*?(<\/script>)/;

/** As it came. @type {string} */
const template = `<!DOCTYPE html>\n${document.documentElement.outerHTML}\n`;

/** JSON that may stand in a page. @param {any} value */
const inPage = (value) => JSON.stringify(value).replaceAll('<', '\\u003c').replaceAll('\u2028', '\\u2028').replaceAll('\u2029', '\\u2029');

/** @param {Uint8Array} bytes */
function base64(bytes) {
    let letters = '';
    for (let at = 0; at < bytes.length; at += 0x8000) letters += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
    return btoa(letters);
}

/** What the page carries: files as text where they are UTF-8, else as their bytes. */
export function carried() {
    const { title, files, kept, who, instrument, notes } = state();
    const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
    return {
        version: 1,
        title,
        files: files.map(({ name, bytes }) => {
            try {
                return { name, text: decoder.decode(bytes) };
            } catch {
                return { name, base64: base64(bytes) };
            }
        }),
        kept,
        shown: { who, instrument, notes },
    };
}

/** @param {any} library as `carried` makes it @returns {{name: string, bytes: Uint8Array}[]} */
export function filesOf(library) {
    const encoder = new TextEncoder();
    return library.files.map((/** @type {any} */ file) => ({
        name: file.name,
        bytes: file.text !== undefined ? encoder.encode(file.text) : Uint8Array.from(atob(file.base64), (letter) => letter.charCodeAt(0)),
    }));
}

/** The whole page as a text. */
export function wholePage() {
    return template.replace(LIBRARY, (_, before, after) => before + inPage(carried()) + after);
}

/** Hands a file to the person. @param {string} name @param {string} text @param {string} type */
export function handOut(name, text, type) {
    const address = URL.createObjectURL(new Blob([text], { type }));
    const link = document.createElement('a');
    link.href = address;
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(address), 10_000);
}
