"""Reads which keys a Standard MIDI File strikes and when; nothing else of it.

Source: Standard MIDI Files 1.0, MIDI Manufacturers Association (RP-001, 1988): chunks, variable-length quantities, running
status; MIDI 1.0 Detailed Specification: message lengths, and that a note-on of velocity 0 is a note-off. (Number and year
from memory.)
"""

DATA_BYTES = {0x80: 2, 0x90: 2, 0xA0: 2, 0xB0: 2, 0xC0: 1, 0xD0: 1, 0xE0: 2}
NOTE_ON = 0x90


def variable_length(data, at):
    """The quantity at this place and the place after it."""
    value = 0
    while True:
        byte = data[at]
        at += 1
        value = (value << 7) | (byte & 0x7F)
        if byte < 0x80:
            return value, at


def strikes_of_track(data):
    """(time in ticks, MIDI note number) of each note-on, in order."""
    found, at, status, ticks = [], 0, None, 0
    while at < len(data):
        wait, at = variable_length(data, at)
        ticks += wait
        if data[at] >= 0x80:
            status = data[at]
            at += 1
        if status is None:
            raise ValueError("data byte without a status")
        if status == 0xFF:
            length, at = variable_length(data, at + 1)
            at += length
        elif status in (0xF0, 0xF7):
            length, at = variable_length(data, at)
            at += length
        else:
            kind = status & 0xF0
            if kind == NOTE_ON and data[at + 1] > 0:
                found.append((ticks, data[at]))
            at += DATA_BYTES[kind]
    return found


def strikes(data):
    """strikes_of_track of each track, in file order. Raises ValueError if it is no Standard MIDI File."""
    tracks, at = [], 0
    if data[:4] != b"MThd":
        raise ValueError("no MThd chunk")
    while at + 8 <= len(data):
        kind, length = data[at:at + 4], int.from_bytes(data[at + 4:at + 8], "big")
        if kind == b"MTrk":
            tracks.append(strikes_of_track(data[at + 8:at + 8 + length]))
        at += 8 + length
    return tracks


def struck_keys(data):
    """The set of MIDI note numbers struck anywhere in the file. Raises ValueError if it is no Standard MIDI File."""
    return {key for track in strikes(data) for _, key in track}
