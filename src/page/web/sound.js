// A tune, heard: an oscillator for each note, no louder than asked for, with the blocks lit as they sound.

const FADE = 0.02; // seconds; less clicks
const LOOK_AHEAD = 0.3; // seconds of notes that are handed to the clock of the sound
const QUIETEST = 0.25; // of full: where it starts

/**
 * @typedef {{pitch: number|null, seconds: number, mark: any}} Heard one note or rest; `mark` is handed back when it sounds
 */

/** Loudness that the person chose, never raised by itself. */
export const volume = { level: QUIETEST };

/** Whether this browser can sound at all. */
export const canSound = () => typeof AudioContext === 'function';

export class Player {
    /** @type {AudioContext|null} */
    #context = null;
    /** @type {ReturnType<typeof setInterval>|undefined} */
    #timer;
    /** @type {GainNode|null} */
    #out = null;

    /**
     * @param {Heard[]} notes
     * @param {{loop: boolean, drone: number|null, count: number[], light: (mark: any) => void, ended: () => void}} how `count`: seconds of each beat counted in
     */
    play(notes, how) {
        this.stop();
        const context = (this.#context = new AudioContext());
        void context.resume();
        const out = (this.#out = context.createGain());
        out.gain.value = volume.level;
        out.connect(context.destination);
        let time = context.currentTime + 0.1;
        for (const seconds of how.count) {
            sound(context, out, 84, time, Math.min(0.05, seconds), 'square', 0.3);
            time += seconds;
        }
        if (how.drone !== null) this.#drone(context, out, how.drone, time);
        let at = 0;
        /** @type {{time: number, mark: any}[]} */
        const lights = [];
        const step = () => {
            while (lights.length && lights[0].time <= context.currentTime + 0.01) how.light(/** @type {any} */ (lights.shift()).mark);
            while (time < context.currentTime + LOOK_AHEAD) {
                if (at === notes.length) {
                    if (how.loop && notes.length) at = 0;
                    else {
                        if (!lights.length && context.currentTime >= time) {
                            this.stop();
                            how.ended();
                        }
                        return;
                    }
                }
                const note = notes[at++];
                if (note.pitch !== null) sound(context, out, note.pitch, time, note.seconds, 'triangle', 1);
                lights.push({ time, mark: note.mark });
                time += note.seconds;
            }
        };
        this.#timer = setInterval(step, 20);
        step();
    }

    stop() {
        clearInterval(this.#timer);
        const context = this.#context;
        if (context) {
            this.#out?.gain.setTargetAtTime(0, context.currentTime, FADE / 2);
            setTimeout(() => void context.close(), 120);
        }
        this.#context = null;
    }

    isPlaying() {
        return this.#context !== null;
    }

    /** @param {number} level */
    setVolume(level) {
        volume.level = level;
        if (this.#context) this.#out?.gain.setTargetAtTime(level, this.#context.currentTime, FADE);
    }

    /** @param {AudioContext} context @param {AudioNode} out @param {number} pitch @param {number} time */
    #drone(context, out, pitch, time) {
        const gain = context.createGain();
        const low = context.createOscillator();
        low.type = 'triangle';
        low.frequency.value = hertz(pitch);
        gain.gain.setValueAtTime(0, time);
        gain.gain.linearRampToValueAtTime(0.25, time + 0.2);
        low.connect(gain).connect(out);
        low.start(time);
    }
}

/** Equal temperament on A4 = 440 Hz. @param {number} pitch */
export const hertz = (pitch) => 440 * 2 ** ((pitch - 69) / 12);

/**
 * One note, faded in and out.
 * @param {BaseAudioContext} context @param {AudioNode} out @param {number} pitch @param {number} time @param {number} seconds
 * @param {OscillatorType} type @param {number} level
 */
export function sound(context, out, pitch, time, seconds, type, level) {
    const end = time + seconds;
    const fade = Math.min(FADE, seconds / 3);
    const gain = context.createGain();
    gain.gain.setValueAtTime(0, time);
    gain.gain.linearRampToValueAtTime(level, time + fade);
    gain.gain.setValueAtTime(level, Math.max(time + fade, end - fade));
    gain.gain.linearRampToValueAtTime(0, end);
    const tone = context.createOscillator();
    tone.type = type;
    tone.frequency.value = hertz(pitch);
    tone.connect(gain).connect(out);
    tone.start(time);
    tone.stop(end + 0.01);
}
