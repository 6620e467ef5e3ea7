// The page's end of the wire to the worker that holds the tunes.

/** @typedef {{id: number, reply?: any, fault?: string}} Reply */

const PROTOCOL = 1;

/** The engine cannot be had here: `message` says it to the person. */
export class EngineFault extends Error {
    /** @param {string} message */
    constructor(message) {
        super(message);
        this.name = 'EngineFault';
    }
}

export class Engine {
    /** @type {Map<number, {resolve: (reply: any) => void, reject: (why: Error) => void}>} */
    #open = new Map();
    #last = 0;
    #worker;

    /**
     * @param {string} program the worker's whole source
     * @param {string} packed the engine: gzip, as base64
     */
    constructor(program, packed) {
        if (typeof WebAssembly !== 'object' || typeof DecompressionStream !== 'function')
            throw new EngineFault('This browser is too old for this page. A newer Firefox, Chromium or Safari opens it.');
        const address = URL.createObjectURL(new Blob([program], { type: 'text/javascript' }));
        this.#worker = new Worker(address);
        this.#worker.addEventListener('message', (event) => this.#settle(event.data));
        for (const kind of ['error', 'messageerror'])
            this.#worker.addEventListener(kind, (event) => this.#fail(/** @type {any} */ (event).message ?? 'it sent what cannot be read'));
        this.ready = this.#send('hello', { protocol: PROTOCOL, packed }).finally(() => URL.revokeObjectURL(address));
    }

    /**
     * A question of schema/page.md; the answer is what `gamut --json` prints, or `{refused}`, or `{fault}`.
     * @param {string} kind
     * @param {Record<string, any>} [question]
     * @returns {Promise<any>}
     */
    ask(kind, question = {}) {
        return this.#send('ask', { question: JSON.stringify({ ...question, kind }) });
    }

    /** Reads a file; its tunes answer after `settle`. @param {string} name @param {Uint8Array} bytes */
    read(name, bytes) {
        return this.#send('read', { name, bytes });
    }

    settle() {
        return this.#send('settle', {});
    }

    /** @param {any} kept all that people said, as schema/page.md has it */
    keep(kept) {
        return this.#send('keep', { kept: JSON.stringify(kept) });
    }

    /** Forgets every tune and every word. */
    clear() {
        return this.#send('clear', {});
    }

    /** @param {string} what @param {any} rest @returns {Promise<any>} */
    #send(what, rest) {
        const id = ++this.#last;
        return new Promise((resolve, reject) => {
            this.#open.set(id, { resolve, reject });
            this.#worker.postMessage({ id, what, ...rest });
        });
    }

    /** @param {Reply} reply */
    #settle(reply) {
        const waiting = this.#open.get(reply.id);
        this.#open.delete(reply.id);
        if (reply.fault !== undefined) waiting?.reject(new EngineFault(reply.fault));
        else waiting?.resolve(reply.reply);
    }

    /** @param {string} why */
    #fail(why) {
        for (const waiting of this.#open.values()) waiting.reject(new EngineFault(`The part that reads tunes has stopped: ${why}`));
        this.#open.clear();
    }
}
