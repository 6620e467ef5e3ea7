// The stored form: a version byte, the number of bars, then each bar with its notes behind it. Values are predicted and
// only what differs is written: a bar is as long as the one before, has as many notes and the next number; a note comes
// as long after the one before as that did after its own, or, in dotted rhythm, as the one before that.
//     bar    flags | length? | number? | endings? | count of notes? | notes
//     end?   after all bars
//     note   six bits of pitch change, two bits of time | pitch? | time?
// Whole numbers have seven bits a byte, lowest first, the high bit set on all bytes but the last.
// Tested by outline_test.cc.
#include "tune/outline.h"

#include <utility>

#include "base/invariant.h"

namespace tune {

namespace {

constexpr std::uint8_t kVersion = 1;
constexpr std::uint8_t kVersionWithEnd = 2;  // with Outline::end behind the bars

enum BarFlag : std::uint8_t {
    kPickup = 1,
    kBeginsPart = 2,
    kOpens = 4,
    kCloses = 8,
    kNewLength = 16,
    kNewNumber = 32,
    kEndings = 64,
    kNewCount = 128
};

// The two bits of time.
enum class Step : std::uint8_t { as_last, as_before_last, written };

constexpr std::uint8_t kWrittenPitch = 63;  // in the six bits: the pitch itself stands in the next byte

// Zigzag: 0, -1, 1, -2, 2 ... as 0, 1, 2, 3, 4 ...
constexpr std::uint32_t zigzag(int value) {
    return value < 0 ? static_cast<std::uint32_t>(-value) * 2 - 1 : static_cast<std::uint32_t>(value) * 2;
}
constexpr int unzigzag(std::uint32_t code) {
    return code % 2 == 1 ? -static_cast<int>(code / 2) - 1 : static_cast<int>(code / 2);
}

// What writer and reader both expect next.
struct Expected {
    std::uint32_t length = kTicksPerWhole;
    std::int64_t number = 1;  // of a bar that is no pick-up; a pick-up has the one before
    std::size_t count = 8;
    int midi = 60;
    std::uint32_t last_step = kTicksPerWhole / 8;
    std::uint32_t step_before = kTicksPerWhole / 16;

    std::int64_t number_of(bool is_pickup) const { return is_pickup ? number - 1 : number; }
    void take_bar(const OutlineBar& bar, std::size_t notes) {
        length = bar.length;
        number = std::int64_t{bar.number} + 1;
        count = notes;
    }
    void take_step(Step kind, std::uint32_t step) {
        if (kind == Step::as_last) return;
        step_before = last_step;
        last_step = step;
    }
};

void append_number(std::string& bytes, std::uint32_t value) {
    for (; value >= 0x80; value >>= 7) bytes += static_cast<char>(value | 0x80);
    bytes += static_cast<char>(value);
}

// Takes bytes off the front. After a fault every answer is 0.
class Bytes {
public:
    explicit Bytes(std::string_view left) : left_(left) {}

    bool has_fault() const { return has_fault_; }
    std::size_t left() const { return left_.size(); }

    std::uint8_t byte() {
        if (left_.empty()) return has_fault_ = true, std::uint8_t{0};
        const auto value = static_cast<std::uint8_t>(left_.front());
        left_.remove_prefix(1);
        return value;
    }
    // At most `most`, which is below 2^31.
    std::uint32_t number(std::uint32_t most) {
        std::uint64_t value = 0;
        for (unsigned shift = 0; shift < 35; shift += 7) {
            const std::uint8_t next = byte();
            value |= std::uint64_t{next & 0x7FU} << shift;
            if (next >= 0x80) continue;
            if (value > most || has_fault_) break;
            return static_cast<std::uint32_t>(value);
        }
        has_fault_ = true;
        return 0;
    }
    void fail() { has_fault_ = true; }

private:
    std::string_view left_;
    bool has_fault_ = false;
};

void append_note(std::string& bytes, const OutlineNote& note, std::uint32_t step, bool is_first, Expected& expected) {
    const std::uint32_t change = zigzag(static_cast<int>(note.midi) - expected.midi);
    const std::uint32_t likely = is_first ? 0 : expected.last_step;
    Step kind = step == likely ? Step::as_last : Step::written;
    if (kind == Step::written && !is_first && step == expected.step_before) kind = Step::as_before_last;
    bytes +=
        static_cast<char>((change < kWrittenPitch ? change : kWrittenPitch) | static_cast<std::uint32_t>(kind) << 6);
    if (change >= kWrittenPitch) bytes += static_cast<char>(note.midi);
    if (kind == Step::written) append_number(bytes, step);
    if (!is_first) expected.take_step(kind, step);
    expected.midi = note.midi;
}

OutlineNote read_note(Bytes& bytes, std::uint32_t before, bool is_first, Expected& expected) {
    const std::uint8_t head = bytes.byte();
    const std::uint32_t change = head & 63U;
    const int midi = change == kWrittenPitch ? bytes.byte() : expected.midi + unzigzag(change);
    const auto kind = static_cast<Step>(head >> 6);
    std::uint32_t step = is_first ? 0 : expected.last_step;
    if (kind == Step::written)
        step = bytes.number(kMostTicks);
    else if (kind == Step::as_before_last && !is_first)
        step = expected.step_before;
    else if (kind != Step::as_last)
        bytes.fail();
    if (midi < 0 || midi > 127 || step > kMostTicks - before) return bytes.fail(), OutlineNote{};
    if (!is_first) expected.take_step(kind, step);
    expected.midi = midi;
    return {before + step, static_cast<std::uint8_t>(midi)};
}

}  // namespace

std::string encode_outline(const Outline& outline) {
    std::string bytes(1, static_cast<char>(outline.end ? kVersionWithEnd : kVersion));
    append_number(bytes, static_cast<std::uint32_t>(outline.bars.size()));
    Expected expected;
    for (std::size_t index = 0; index < outline.bars.size(); ++index) {
        const OutlineBar& bar = outline.bars[index];
        const std::size_t end = outline.end_of(index);
        INVARIANT(bar.first_note <= end && end <= outline.notes.size() && bar.number >= 0 && bar.length <= kMostTicks);
        const std::size_t count = end - bar.first_note;
        unsigned flags = 0;
        if (bar.is_pickup) flags |= kPickup;
        if (bar.begins_part) flags |= kBeginsPart;
        if (bar.repeat_opens) flags |= kOpens;
        if (bar.repeat_closes) flags |= kCloses;
        if (bar.length != expected.length) flags |= kNewLength;
        if (bar.number != expected.number_of(bar.is_pickup)) flags |= kNewNumber;
        if (bar.endings != 0) flags |= kEndings;
        if (count != expected.count) flags |= kNewCount;
        bytes += static_cast<char>(flags);
        if ((flags & kNewLength) != 0) append_number(bytes, bar.length);
        if ((flags & kNewNumber) != 0) append_number(bytes, static_cast<std::uint32_t>(bar.number));
        if ((flags & kEndings) != 0) append_number(bytes, bar.endings);
        if ((flags & kNewCount) != 0) append_number(bytes, static_cast<std::uint32_t>(count));
        expected.take_bar(bar, count);
        std::uint32_t before = 0;
        for (std::size_t note = bar.first_note; note < end; ++note) {
            INVARIANT(outline.notes[note].at >= before && outline.notes[note].at <= kMostTicks &&
                      outline.notes[note].midi <= 127);
            append_note(bytes, outline.notes[note], outline.notes[note].at - before, note == bar.first_note, expected);
            before = outline.notes[note].at;
        }
    }
    INVARIANT(outline.bars.empty() ? outline.notes.empty() : outline.bars.front().first_note == 0);
    if (outline.end) {
        INVARIANT(*outline.end > 0 && *outline.end <= outline.notes.size());
        append_number(bytes, *outline.end);
    }
    return bytes;
}

std::optional<Outline> decode_outline(std::string_view written) {
    Bytes bytes(written);
    const std::uint8_t version = bytes.byte();
    if (version != kVersion && version != kVersionWithEnd) return std::nullopt;
    const std::uint32_t bars = bytes.number(kMostTicks);
    if (bars > bytes.left()) return std::nullopt;  // a bar has a byte at least, and so has a note
    Outline outline;
    outline.bars.reserve(bars);
    Expected expected;
    for (std::uint32_t index = 0; index < bars && !bytes.has_fault(); ++index) {
        const std::uint8_t flags = bytes.byte();
        OutlineBar bar;
        bar.first_note = static_cast<std::uint32_t>(outline.notes.size());
        bar.is_pickup = (flags & kPickup) != 0;
        bar.begins_part = (flags & kBeginsPart) != 0;
        bar.repeat_opens = (flags & kOpens) != 0;
        bar.repeat_closes = (flags & kCloses) != 0;
        bar.length = (flags & kNewLength) != 0 ? bytes.number(kMostTicks) : expected.length;
        const std::int64_t number =
            (flags & kNewNumber) != 0 ? bytes.number(0x7FFFFFFF) : expected.number_of(bar.is_pickup);
        if (number > 0x7FFFFFFF) return std::nullopt;
        bar.number = static_cast<std::int32_t>(number);
        if ((flags & kEndings) != 0) bar.endings = static_cast<std::uint16_t>(bytes.number(0xFFFF));
        const std::size_t count = (flags & kNewCount) != 0 ? bytes.number(kMostTicks) : expected.count;
        if (bytes.has_fault() || count > bytes.left()) return std::nullopt;
        expected.take_bar(bar, count);
        outline.bars.push_back(bar);
        std::uint32_t before = 0;
        for (std::size_t note = 0; note < count && !bytes.has_fault(); ++note) {
            outline.notes.push_back(read_note(bytes, before, note == 0, expected));
            before = outline.notes.back().at;
        }
    }
    if (version == kVersionWithEnd) {
        outline.end = bytes.number(kMostTicks);
        if (*outline.end == 0 || *outline.end > outline.notes.size()) return std::nullopt;
    }
    if (bytes.has_fault() || bytes.left() != 0) return std::nullopt;
    return outline;
}

}  // namespace tune
