// Any bytes: read as a score or refused; annotated, every byte of the input must come back when the
// insertions are taken out, and the result must read as the same notes.

#include <sectio/base/error.hpp>
#include <sectio/score/annotation.hpp>
#include <sectio/score/melody.hpp>

#include <support/xml_events.hpp>

#include <cstdint>
#include <cstdlib>
#include <string>

using namespace sectio;
using namespace sectio::score;

namespace {

const NoteTuning& tuning() {
    static const auto made = tuning_by_division(EqualDivision(53), "C4");
    return *made;
}

void require(bool condition) {
    if (!condition)
        std::abort();
}

/// What the quick reader takes for plain XML, expat reads alike.
void compare_readers(const std::string& bytes) {
    const auto plain = support::plain_events_of(bytes);
    require(!plain || plain == support::events_of(bytes));
}

void check(const Document& document, const Score& score, const AnnotationOptions& options) {
    const Annotation a = annotate(score, tuning(), options);
    require(a.notes == a.annotated + a.skipped + a.unmatched.size());
    const std::string text = a.insertions.applied(document.bytes);
    require(a.insertions.removed(text) == document.bytes);
    const Score again = read_score({document.source, text, std::nullopt});
    require(again.notes.size() == score.notes.size());
    require(again.encoding == score.encoding);
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    try {
        compare_readers(std::string(reinterpret_cast<const char*>(data), size));
        const Document document =
            document_of(std::string(reinterpret_cast<const char*>(data), size), "fuzz");
        compare_readers(document.bytes);
        const Score score = read_score(document);
        static_cast<void>(melody_of(score));
        AnnotationOptions options;
        check(document, score, options);
        options.kind = TextKind::lyric;
        options.changes = true;
        options.reading.source = Source::sign;
        check(document, score, options);
        if (document.archive)
            static_cast<void>(repack(*document.archive, document.bytes, "fuzz"));
    } catch (const Error&) { // refused with a reason
    }
    return 0;
}
