// A Chromium that knows nothing and asks nobody, and a page in it that tells what it did.
import { mkdtempSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';

const require = createRequire(resolve('build-page/npm/package.json'));
const { chromium } = require('playwright-core');

export const axeSource = require.resolve('axe-core/axe.min.js');
export const PAGE = resolve(process.env.GAMUT_PAGE ?? 'build-page/page.html');

/** @param {(open: (options?: any, file?: string) => Promise<any>) => Promise<void>} work */
export async function withBrowser(work) {
    const folder = mkdtempSync(join(tmpdir(), 'gamut-page-'));
    const contexts = [];
    let count = 0;
    /** Opens the page, with nothing kept from before; `page.told` are errors and requests. */
    const open = async (options = {}, file = PAGE) => {
        const { profile = String(++count), ...given } = options;
        const context = await chromium.launchPersistentContext(join(folder, profile), {
            executablePath: '/usr/bin/chromium', headless: true, viewport: { width: 1280, height: 860 }, ...given,
            args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'],
        });
        contexts.push(context);
        const page = context.pages()[0] ?? (await context.newPage());
        page.told = [];
        page.on('console', (message) => message.type() === 'error' && page.told.push(`console: ${message.text()}`));
        page.on('pageerror', (error) => page.told.push(`error: ${error.message}`));
        page.on('request', (request) => !/^(file|blob|data):/.test(request.url()) && page.told.push(`request: ${request.url()}`));
        page.on('dialog', (dialog) => dialog.accept());
        await page.goto(pathToFileURL(file).href);
        await ready(page);
        return page;
    };
    try {
        await work(open);
    } finally {
        for (const context of contexts) await context.close().catch(() => {});
        rmSync(folder, { recursive: true, force: true });
    }
}

export const ready = (page) => page.waitForFunction(() => document.body.dataset.ready, null, { timeout: 60_000 });

/** The figure once nothing changes any more. */
export const figure = async (page) => (await page.locator('#figure').innerText()).replace(/\s+/g, ' ');

/** Questions to an engine of the page's own, beside the one it uses. */
export async function askAll(page, files, questions) {
    return page.evaluate(async ({ files, questions }) => {
        const worker = new Worker(URL.createObjectURL(new Blob([document.getElementById('worker').textContent], { type: 'text/javascript' })));
        let last = 0;
        const send = (what, rest) => new Promise((resolve, reject) => {
            const id = ++last;
            const hear = (event) => {
                if (event.data.id !== id) return;
                worker.removeEventListener('message', hear);
                event.data.fault === undefined ? resolve(event.data.reply) : reject(new Error(event.data.fault));
            };
            worker.addEventListener('message', hear);
            worker.postMessage({ id, what, ...rest });
        });
        await send('hello', { protocol: 1, packed: document.getElementById('engine').textContent });
        for (const { name, bytes } of files ?? JSON.parse(document.getElementById('library').textContent).files.map((file) => ({ name: file.name, bytes: new TextEncoder().encode(file.text) })))
            await send('read', { name, bytes: bytes instanceof Uint8Array ? bytes : Uint8Array.from(atob(bytes), (letter) => letter.charCodeAt(0)) });
        const began = performance.now();
        await send('settle', {});
        const settled = performance.now() - began;
        const answers = [];
        for (const [kind, rest] of questions) {
            const before = performance.now();
            const reply = await send('ask', { question: JSON.stringify({ ...rest, kind }) });
            answers.push({ reply, ms: performance.now() - before });
        }
        worker.terminate();
        return { answers, settled };
    }, { files, questions });
}
