// What a browser keeps of the page between visits, where it allows that.

const NAME = 'gamut';
const STORE = 'kept';

/** @returns {Promise<IDBDatabase>} */
function opened() {
    return new Promise((resolve, reject) => {
        const asked = indexedDB.open(NAME, 1);
        asked.onupgradeneeded = () => asked.result.createObjectStore(STORE);
        asked.onsuccess = () => resolve(asked.result);
        asked.onerror = () => reject(asked.error);
        asked.onblocked = () => reject(new Error('another tab holds it'));
    });
}

/** @param {'readonly'|'readwrite'} mode @param {(store: IDBObjectStore) => IDBRequest} ask @returns {Promise<any>} */
async function transact(mode, ask) {
    const database = await opened();
    try {
        return await new Promise((resolve, reject) => {
            const asked = ask(database.transaction(STORE, mode).objectStore(STORE));
            asked.onsuccess = () => resolve(asked.result);
            asked.onerror = () => reject(asked.error);
        });
    } finally {
        database.close();
    }
}

/** What was kept, under the name of this page; nothing where nothing is, or may be. @param {string} page */
export async function fetchKept(page) {
    try {
        return (await transact('readonly', (store) => store.get(page))) ?? null;
    } catch {
        return null;
    }
}

/** @param {string} page @param {any} value @returns {Promise<boolean>} whether the browser kept it */
export async function keepIt(page, value) {
    try {
        await transact('readwrite', (store) => store.put(value, page));
        return true;
    } catch {
        return false;
    }
}

/** @param {string} page */
export async function forgetKept(page) {
    try {
        await transact('readwrite', (store) => store.delete(page));
    } catch {
        // Nothing was kept, so nothing has to go.
    }
}
