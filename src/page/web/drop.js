// Files that a person chooses or drops, also whole folders, as bytes; and reading them, a slice at a time.
import { counted, grouped } from './names.js';

const MOST_BYTES = 256 * 1024 * 1024; // of a file; as much as gamut import takes
const WANTED = /\.(abc|txt|abcx|tune|tunes)$/i; // in a folder; what is chosen by itself is read whatever it is called
const SETTLE_AFTER = 700; // milliseconds of reading, after which the first tunes show; house choice

/** @typedef {{name: string, file: File}} Found */

/** @param {DataTransfer} dropped @returns {Promise<Found[]>} */
export async function foundIn(dropped) {
    const entries = [...dropped.items].map((item) => item.webkitGetAsEntry?.()).filter(Boolean);
    if (!entries.length) return foundAmong(dropped.files);
    /** @type {Found[]} */
    const found = [];
    for (const entry of entries) await walk(/** @type {any} */ (entry), '', found);
    return sorted(found);
}

/** @param {Iterable<File>} files */
export function foundAmong(files) {
    const all = [...files].map((file) => ({ name: file.webkitRelativePath.split('/').slice(1).join('/') || file.name, file }));
    return sorted(all.filter((one) => !one.file.webkitRelativePath || WANTED.test(one.name)));
}

/** @param {any} entry @param {string} folder @param {Found[]} found */
async function walk(entry, folder, found) {
    if (entry.isFile) {
        const file = await new Promise((resolve) => entry.file(resolve, () => resolve(null)));
        if (file && (folder === '' || WANTED.test(entry.name))) found.push({ name: folder + entry.name, file });
        return;
    }
    const reader = entry.createReader();
    for (;;) {
        const some = await new Promise((resolve) => reader.readEntries(resolve, () => resolve([])));
        if (!some.length) return;
        for (const one of some) await walk(one, entry.filesystem && folder === '' ? '' + rest(entry) : `${folder}${entry.name}/`, found);
    }
}

/** The folder that was dropped gives its files no name of its own. @param {any} _entry */
const rest = (_entry) => './';

/** @param {Found[]} found */
function sorted(found) {
    for (const one of found) one.name = one.name.replace(/^\.\//, '');
    return found.sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
}

/**
 * Bytes of what was found; what cannot be had is told.
 * @param {Found[]} found
 */
export async function bytesOf(found) {
    const files = [];
    const unread = [];
    for (const { name, file } of found) {
        if (file.size > MOST_BYTES) unread.push({ name, why: 'is larger than 256 MB' });
        else
            try {
                files.push({ name, bytes: new Uint8Array(await file.arrayBuffer()) });
            } catch {
                unread.push({ name, why: 'could not be read' });
            }
    }
    return { files, unread };
}

/**
 * Hands files to the engine and says how far it is.
 * @param {import('./engine.js').Engine} engine
 * @param {readonly {name: string, bytes: Uint8Array}[]} files
 * @param {(words: string, settled: boolean) => void} tell
 */
export async function readAll(engine, files, tell) {
    const read = { tunes: 0, files: 0, odd: 0, unread: /** @type {{name: string, why: string}[]} */ ([]) };
    await engine.clear();
    let since = performance.now();
    let wait = SETTLE_AFTER;
    for (const [at, { name, bytes }] of files.entries()) {
        const answer = await engine.read(name, bytes);
        if (answer.remark) read.unread.push({ name, why: answer.remark });
        else read.files += 1;
        read.tunes += answer.tunes;
        read.odd += answer.odd;
        if (performance.now() - since < wait || at + 1 === files.length) continue;
        await engine.settle();
        wait *= 4; // each settling works all out anew
        since = performance.now();
        tell(`Reading: ${counted(read.tunes, 'tune')} in ${grouped(at + 1)} of ${counted(files.length, 'file')}`, true);
    }
    await engine.settle();
    return read;
}
