#pragma once
/// @file
/// What the written notes mean. In most scores `alter` is the truth and a sign stands only where it
/// is printed; in others every note carries its sign and `alter` is rounded or absent. A score does
/// not say which kind it is, so the evidence is counted, the choice is stated, and a user may make
/// it.

#include <sectio/score/score.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace sectio::score {

/// Where a note's alteration is taken from.
enum class Source {
    alter, ///< <alter>; absent means natural, as the standard says. Key signatures are not added.
    sign,  ///< <accidental>; absent means natural. Neither key signatures nor earlier notes count.
};

/// Which value a sign has in a key signature whose steps state commas of their own.
enum class Signature {
    written,   ///< the sign's value in the table
    practised, ///< the signature's own value (<key-alter>) for notes of its step and sign
};

/// What a score shows about its kind. Counts are notes, except for the last two.
struct Evidence {
    std::size_t sign_without_alter = 0; ///< an altering sign, and `alter` absent or 0
    std::size_t alter_without_sign = 0; ///< altered by `alter`, and no sign
    std::size_t sign_and_alter = 0;     ///< both, and they agree within a quarter tone
    std::size_t contradictions = 0;     ///< both, and they differ by more than a quarter tone
    std::size_t comma_signs = 0;        ///< signs that only Turkish notation has
    std::size_t comma_signatures = 0;   ///< steps of key signatures whose `key-alter` counts commas
    bool names_a_makam = false;         ///< a text of the score has the word "makam"
};

/// Counts the evidence.
Evidence evidence_of(const Score& score);

/// How a score is read.
struct Reading {
    Source source = Source::alter;
    SignTable table = SignTable::general; ///< used by Source::sign
    Signature signature = Signature::written;
    Evidence evidence;
    std::string reason; ///< why, in a sentence

    /// Grace notes that have no sign say nothing of their alteration, since no grace note of the
    /// score has one although other notes do.
    bool grace_signs_lost = false;
};

/// What a user may choose; what is empty is chosen by the evidence.
struct ReadingChoice {
    std::optional<Source> source{};
    std::optional<SignTable> table{};
    Signature signature = Signature::written;
};

/// By the evidence the sign is the truth where more notes have an altering sign without `alter`
/// than are altered without a sign; or where none is altered without a sign and the key signatures
/// count commas or the score names a makam. The Turkish table is used where a sign only it has, a
/// signature in commas, or the word makam is found.
Reading choose_reading(const Score& score, const ReadingChoice& choice = {});

/// Why a note has no pitch that could be read.
enum class Unreadable {
    grace_sign_lost,    ///< see Reading::grace_signs_lost
    sign_without_alter, ///< the reading is by `alter`, which is absent, but a sign alters the note
    contradiction,      ///< `alter` and sign differ by more than a quarter tone
    sign_without_value, ///< the table gives the sign no value
};

/// The reason in words, such as "grace note without sign".
std::string_view text(Unreadable reason);

/// The alteration of `note`, or why there is none.
std::variant<Alteration, Unreadable> alteration_of(const Score& score, const Note& note,
                                                   const Reading& reading);

} // namespace sectio::score
