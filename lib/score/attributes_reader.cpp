#include <sectio/score/context_readers.hpp>
#include <sectio/score/read_values.hpp>

namespace sectio::score {

void AttributesReader::open(Tag tag, const XmlStart& start, const XmlCursor& /*cursor*/) {
    if (tag == Tag::key_accidental)
        glyph_ = sign_of_glyph(attribute(start, "smufl"));
    if (tag != Tag::key && tag != Tag::transpose)
        return;
    key_ = {};
    transposition_ = {};
    staff_ = counting_attribute(start, "number", largest_staff - 1, 0);
}

void AttributesReader::close(Tag tag, std::size_t /*offset*/, std::string_view text,
                             const XmlCursor& cursor) {
    constexpr int most_fifths = 1000;
    PartState& state = builder_.state();
    switch (tag) {
    case Tag::divisions:
        state.divisions = number("divisions", text, cursor);
        if (state.divisions.num() <= 0)
            refuse_number("divisions", text, cursor);
        break;
    case Tag::fifths:
        key_.fifths = whole("fifths", text, most_fifths, cursor);
        break;
    case Tag::key:
        state.keys.set(staff_, builder_.keys(key_));
        break;
    case Tag::transpose:
        state.transpositions.set(staff_, builder_.transpositions(transposition_));
        break;
    case Tag::key_step:
    case Tag::key_alter:
    case Tag::key_accidental:
        close_key_step(tag, text, cursor);
        break;
    default:
        close_transposition(tag, text, cursor);
    }
}

/// Steps come one after the other, each with its alteration after it.
void AttributesReader::close_key_step(Tag tag, std::string_view text, const XmlCursor& cursor) {
    if (tag == Tag::key_step)
        key_.steps.push_back({letter(text, cursor), {}, no_sign});
    else if (key_.steps.empty())
        return;
    else if (tag == Tag::key_alter)
        key_.steps.back().alter = within("key-alter", text, limits::score_alteration, cursor);
    else
        key_.steps.back().sign = builder_.sign(text, glyph_);
}

void AttributesReader::close_transposition(Tag tag, std::string_view text,
                                           const XmlCursor& cursor) {
    constexpr int octaves = limits::score_octaves;
    if (tag == Tag::diatonic) {
        transposition_.diatonic = whole("diatonic", text, 7 * octaves, cursor);
        transposition_.stated_diatonic = true;
    } else if (tag == Tag::chromatic)
        transposition_.chromatic = within("chromatic", text, 12 * octaves, cursor);
    else if (tag == Tag::octave_change)
        transposition_.octaves = whole("octave-change", text, octaves, cursor);
}

} // namespace sectio::score
