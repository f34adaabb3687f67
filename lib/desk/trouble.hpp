#pragma once
/// @file
/// Private to lib/desk: what went wrong, in the words of a page whose readers type no commands.

#include <sectio/base/error.hpp>
#include <sectio/desk/question.hpp>

#include <string>
#include <string_view>

namespace sectio::desk {

/// One error: a cure that only who types commands can heed is left out, options that `question`
/// has as fields (none where it is null) have the fields' labels.
std::string trouble_text(const Error& error, const Question* question);

/// All of `told`: lines of text, or of JSON as commands tell errors, `{"error": …}`.
std::string trouble_text(std::string_view told, const Question* question);

} // namespace sectio::desk
