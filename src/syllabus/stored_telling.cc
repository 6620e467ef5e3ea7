// Tested by stored_syllabus_test.cc.
#include "syllabus/stored_telling.h"

#include <cstddef>
#include <optional>
#include <string>
#include <tuple>

namespace syllabus {

namespace {

template <class Struct, class Value>
struct Field {
    const char* name;
    Value Struct::*member;
};
template <class Struct, class Value>
Field(const char*, Value Struct::*) -> Field<Struct, Value>;

// What a struct is called in a stored term, and its members by their names there. All these names stay for good.
template <class... Fields>
struct Shape {
    const char* token;
    std::tuple<Fields...> fields;
};
template <class... Fields>
constexpr Shape<Fields...> shape(const char* token, Fields... fields) {
    return {token, {fields...}};
}

template <class Struct>
struct As {};

constexpr auto shape_of(As<Until>) {
    return shape("until", Field{"date", &Until::date}, Field{"lesson", &Until::lesson},
                 Field{"new_tune", &Until::new_tune});
}
constexpr auto shape_of(As<TimeForNotes>) {
    return shape("time", Field{"notes", &TimeForNotes::notes}, Field{"notes_every", &TimeForNotes::notes_every},
                 Field{"in_all", &TimeForNotes::in_all});
}
constexpr auto shape_of(As<NoLessonInTime>) { return shape("no-lesson-in-time"); }
constexpr auto shape_of(As<NotOnEveryInstrument>) {
    return shape("not-on-every-instrument", Field{"notes", &NotOnEveryInstrument::notes});
}
constexpr auto shape_of(As<NoTimeForNotes>) {
    return shape("no-time-for-notes", Field{"notes", &NoTimeForNotes::notes}, Field{"time", &NoTimeForNotes::time},
                 Field{"lesson", &NoTimeForNotes::lesson},
                 Field{"others_need_some", &NoTimeForNotes::others_need_some});
}
constexpr auto shape_of(As<NoRoom>) {
    return shape("no-room", Field{"tunes", &NoRoom::tunes}, Field{"lesson", &NoRoom::lesson},
                 Field{"room", &NoRoom::room}, Field{"is_last", &NoRoom::is_last});
}
constexpr auto shape_of(As<NoPlaceLeft>) { return shape("no-place-left"); }
constexpr auto shape_of(As<CameLate>) {
    return shape("came-late", Field{"title", &CameLate::title}, Field{"until", &CameLate::until},
                 Field{"lesson", &CameLate::lesson});
}
constexpr auto shape_of(As<CannotCome>) {
    return shape("cannot-come", Field{"title", &CannotCome::title}, Field{"until", &CannotCome::until},
                 Field{"why", &CannotCome::why}, Field{"comes_in", &CannotCome::comes_in});
}
constexpr auto shape_of(As<FileGone>) { return shape("file-gone", Field{"title", &FileGone::title}); }
constexpr auto shape_of(As<NotesCannotCome>) {
    return shape("notes-cannot-come", Field{"notes", &NotesCannotCome::notes}, Field{"time", &NotesCannotCome::time});
}
constexpr auto shape_of(As<HadAlready>) { return shape("had-already", Field{"notes", &HadAlready::notes}); }
constexpr auto shape_of(As<LearntSince>) { return shape("learnt-since", Field{"notes", &LearntSince::notes}); }
constexpr auto shape_of(As<ScrapsLeftAside>) {
    return shape("scraps-left-aside", Field{"tunes", &ScrapsLeftAside::tunes});
}
constexpr auto shape_of(As<SettledLeftOut>) {
    return shape("settled-left-out", Field{"tunes", &SettledLeftOut::tunes});
}
constexpr auto shape_of(As<ManyNotesAtOnce>) {
    return shape("many-notes-at-once", Field{"lesson", &ManyNotesAtOnce::lesson},
                 Field{"notes", &ManyNotesAtOnce::notes});
}
constexpr auto shape_of(As<NewInLastLesson>) { return shape("new-in-last-lesson"); }
constexpr auto shape_of(As<EmptyPlaces>) { return shape("empty-places", Field{"places", &EmptyPlaces::places}); }
constexpr auto shape_of(As<KnownToSome>) {
    return shape("known-to-some", Field{"title", &KnownToSome::title}, Field{"lesson", &KnownToSome::lesson},
                 Field{"players", &KnownToSome::players});
}
constexpr auto shape_of(As<AfterBreak>) { return shape("after-break", Field{"lesson", &AfterBreak::lesson}); }
constexpr auto shape_of(As<ReturnsLate>) {
    return shape("returns-late", Field{"title", &ReturnsLate::title}, Field{"days", &ReturnsLate::days});
}

struct Writer {
    Json operator()(bool value) const { return value; }
    Json operator()(std::int64_t value) const { return value; }
    Json operator()(const std::string& value) const { return value; }
    Json operator()(const std::vector<std::string>& value) const { return value; }
    Json operator()(const music::NoteSet& value) const { return write_notes(value); }
    Json operator()(base::Date value) const { return base::to_string(value); }
    Json operator()(const InWords& value) const { return value.sentence; }
    template <class Value>
    Json operator()(const std::optional<Value>& value) const {
        return value ? (*this)(*value) : Json(nullptr);
    }
    template <class... Kinds>
    Json operator()(const std::variant<Kinds...>& value) const {
        return std::visit(*this, value);
    }
    template <class Struct>
    Json operator()(const Struct& value) const {
        constexpr auto kShape = shape_of(As<Struct>());
        Json json{{"is", kShape.token}};
        std::apply([&](const auto&... field) { ((json[field.name] = (*this)(value.*(field.member))), ...); },
                   kShape.fields);
        return json;
    }
};

class Reader {
public:
    explicit Reader(const Json& json) : json_(json) {}

    void read(bool& value) const { value = json_.get<bool>(); }
    void read(std::int64_t& value) const { value = whole<std::int64_t>(json_); }
    void read(std::string& value) const { value = json_.get<std::string>(); }
    void read(std::vector<std::string>& value) const { value = json_.get<std::vector<std::string>>(); }
    void read(music::NoteSet& value) const { value = read_notes(json_); }
    void read(base::Date& value) const { value = base::read_date(json_.get<std::string>()); }
    template <class Value>
    void read(std::optional<Value>& value) const {
        if (json_.is_null()) return;
        read(value.emplace());
    }
    template <class... Kinds>
    void read(std::variant<Kinds...>& value) const {
        if (!(read_as<Kinds>(value) || ...)) throw StoredFault("it tells something that this gamut does not know");
    }
    template <class Struct>
    void read(Struct& value) const {
        std::apply([&](const auto&... field) { (Reader(json_.at(field.name)).read(value.*(field.member)), ...); },
                   shape_of(As<Struct>()).fields);
    }

private:
    template <class Kind, class Variant>
    bool read_as(Variant& value) const {
        if constexpr (std::is_same_v<Kind, InWords>) {
            if (!json_.is_string()) return false;
            value = InWords{json_.get<std::string>()};
        } else {
            if (json_.is_string() || json_.at("is").get<std::string>() != shape_of(As<Kind>()).token) return false;
            read(value.template emplace<Kind>());
        }
        return true;
    }

    const Json& json_;
};

}  // namespace

Json write_tellings(const std::vector<Telling>& tellings) {
    Json json = Json::array();
    for (const Telling& telling : tellings) json.push_back(Writer{}(telling));
    return json;
}

std::vector<Telling> read_tellings(const Json& json) {
    std::vector<Telling> tellings;
    for (const Json& telling : list(json)) Reader(telling).read(tellings.emplace_back());
    return tellings;
}

}  // namespace syllabus
