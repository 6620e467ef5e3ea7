// The worker's end of the wire: the engine, and nothing of the page. `makeEngine` stands before it in the same script.

/** @type {any} */
let engine;

/** @param {string} packed @returns {Promise<Uint8Array>} */
async function unpacked(packed) {
    const letters = atob(packed);
    const bytes = new Uint8Array(letters.length);
    for (let at = 0; at < letters.length; ++at) bytes[at] = letters.charCodeAt(at);
    const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
    return new Uint8Array(await new Response(stream).arrayBuffer());
}

/** Runs `call` with the address of a text that ends with a zero. @param {string} text @param {(at: number) => any} call */
function withText(text, call) {
    const size = engine.lengthBytesUTF8(text) + 1;
    const at = engine._malloc(size);
    try {
        engine.stringToUTF8(text, at, size);
        return call(at);
    } finally {
        engine._free(at);
    }
}

/** @param {number} at */
const answered = (at) => JSON.parse(engine.UTF8ToString(at));

/** @type {Record<string, (message: any) => any>} */
const CALLS = {
    async hello({ protocol, packed }) {
        if (protocol !== 1) throw new Error('the two halves of this page are of different versions');
        // @ts-ignore: of the engine's own script
        engine = await makeEngine({ wasmBinary: await unpacked(packed), print() {}, printErr() {} });
        return {};
    },
    read({ name, bytes }) {
        const at = engine._malloc(Math.max(1, bytes.length));
        try {
            engine.HEAPU8.set(bytes, at);
            return withText(name, (shown) => answered(engine._page_read(shown, at, bytes.length)));
        } finally {
            engine._free(at);
        }
    },
    settle() {
        engine._page_settle();
        return {};
    },
    keep: ({ kept }) => withText(kept, (at) => answered(engine._page_keep(at))),
    ask: ({ question }) => withText(question, (at) => answered(engine._page_answer(at))),
    clear() {
        engine._page_clear();
        return {};
    },
};

self.addEventListener('message', async (/** @type {MessageEvent} */ event) => {
    const { id, what } = event.data;
    try {
        self.postMessage({ id, reply: await CALLS[what](event.data) });
    } catch (why) {
        self.postMessage({ id, fault: String(/** @type {any} */ (why)?.message ?? why) });
    }
});
