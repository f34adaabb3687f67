#pragma once
/// @file
/// Private to lib/score: values as the texts and attributes of MusicXML hold them; a reader of
/// scores uses them. Those that throw do so with the cursor's place.

#include <sectio/score/time.hpp>
#include <sectio/score/xml.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace sectio::score {

/// White space as one space each: part names are broken into lines for the page.
std::string one_line(std::string_view text);

/// @throws Error score_number
[[noreturn]] void refuse_number(std::string_view element, std::string_view text,
                                const XmlCursor& cursor);
/// @throws Error score_number
QuarterNotes number(std::string_view element, std::string_view text, const XmlCursor& cursor);
/// A number from -limit to limit. @throws Error score_number
QuarterNotes within(std::string_view element, std::string_view text, int limit,
                    const XmlCursor& cursor);
/// A whole number from -limit to limit. @throws Error score_number
int whole(std::string_view element, std::string_view text, int limit, const XmlCursor& cursor);

/// The program of a <midi-program>, 0 to 127 as MIDI counts. @throws Error score_number
int midi_program(std::string_view text, const XmlCursor& cursor);

/// A letter from A to G. @throws Error score_step
char letter(std::string_view text, const XmlCursor& cursor);

/// An attribute's value, "" where it is absent.
std::string_view attribute(const XmlStart& start, std::string_view name);
/// An attribute that is a whole number from 1 to `most`, else `otherwise`.
int counting_attribute(const XmlStart& start, std::string_view name, int most, int otherwise);

/// The passes that "1, 2" names, in rising order; what is no whole number above 0 is none.
std::vector<int> numbers_of_passes(std::string_view text);

inline constexpr int largest_staff = 10'000;

} // namespace sectio::score
