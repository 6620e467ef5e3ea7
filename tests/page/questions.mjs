// Questions to which page and command line must give the same answer: what the page is asked, and what is typed.

const HAVE = 'G:major&D:major A3..B5';

/** @type {[string, any, string[]][]} kind, the rest of the question, the words of the command */
export const QUESTIONS = [
    ['tunes', {}, ['tunes']],
    ['tunes', { filter: { fits: [HAVE] }, sort: 'notes', limit: 50 }, ['tunes', '--fits', HAVE, '--sort', 'notes', '--limit', '50']],
    ['tunes', { filter: { fits: [HAVE] }, missing: 1, missing_at_least: 1, sort: 'missing' }, ['tunes', '--fits', HAVE, '--missing', '1..1', '--sort', 'missing']],
    ['tunes', { filter: { instrument: 'whistle-d' } }, ['tunes', '--instrument', 'whistle-d']],
    ['tunes', { filter: { instrument: 'bc21', grade: 2 } }, ['tunes', '--instrument', 'bc21', '--grade', '2']],
    ['tunes', { filter: { rhythm: 'jig' } }, ['tunes', '--rhythm', 'jig']],
    ['tunes', { filter: { tonic: 'D', mode: 'mixolydian' } }, ['tunes', '--tonic', 'D', '--mode', 'mixolydian']],
    ['tunes', { filter: { span: 12 }, sort: 'range' }, ['tunes', '--span', '12', '--sort', 'range']],
    ['tunes', { filter: { octave: 'home' } }, ['tunes', '--octave', 'home']],
    ['tunes', { filter: { uses: [['C#']] } }, ['tunes', '--uses', 'C#']],
    ['tunes', { filter: { avoids: ['C#', 'G#'] } }, ['tunes', '--avoids', 'C# G#']],
    ['tunes', { filter: { title: 'the' }, limit: 5 }, ['tunes', '--title', 'the', '--limit', '5']],
    ['tunes', { heard: 'G A B d', filter: {} }, ['tunes', '--goes', 'G A B d']],
    ['notes', { have: HAVE, percents: [50, 80, 90, 95] }, ['notes', '--have', HAVE]],
    ['notes', { percents: [80], best_start: 6 }, ['notes', '--percent', '80', '--best-start', '6']],
    ['notes', { have: 'D:major', by_name: true, percents: [50] }, ['notes', '--have', 'D:major', '--by', 'name', '--percent', '50']],
    ['notes', { filter: { instrument: 'fiddle-1' }, have: 'D:major', percents: [90] }, ['notes', '--instrument', 'fiddle-1', '--have', 'D:major', '--percent', '90']],
    ['path', { have: HAVE }, ['path', '--have', HAVE]],
    ['path', {}, ['path']],
    ['path', { have: 'D:major', brief: true, filter: { rhythm: 'reel' } }, ['path', '--have', 'D:major', '--brief', '--rhythm', 'reel']],
    ['path', { have: 'D:major', avoid: 'C', steps: 3 }, ['path', '--have', 'D:major', '--avoid', 'C', '--steps', '3']],
    ['path', { best_in: 4, have: 'G4 A4' }, ['path', '--best-in', '4', '--have', 'G4 A4']],
    ['tune', { tune: '3' }, ['tune', '3']],
    ['tune', { tune: '3', instrument: 'bc21', have: HAVE }, ['tune', '3', '--on', 'bc21', '--have', HAVE]],
    ['tune', { tune: '17', instrument: 'whistle-d' }, ['tune', '17', '--on', 'whistle-d']],
    ['evening', { minutes: 20, filter: { fits: [HAVE] } }, ['evening', '--minutes', '20', '--fits', HAVE]],
    ['evening', { minutes: 45, times: 2, in_set: 2, pace: 'session' }, ['evening', '--minutes', '45', '--times', '2', '--in-set', '2', '--pace', 'session']],
    ['together', { filter: { fits: ['Ina on whistle-d=D:major', 'Bo on fiddle=G:major'] } }, ['together', '--fits', 'Ina on whistle-d=D:major', '--fits', 'Bo on fiddle=G:major']],
    ['fit', {}, ['instrument', 'fit']],
    ['follow', { tune: '34' }, ['tunes', '--after', '34']],
    ['instrument', { instrument: 'anglo30' }, ['instrument', 'show', 'anglo30']],
    ['instrument', {}, ['instrument', 'list']],
];
