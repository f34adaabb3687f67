#pragma once
/// @file
/// What the room `desk` can say; the texts stand in messages.def beside this.

#include <sectio/base/error.hpp>

namespace sectio {

namespace message {
#define SECTIO_MESSAGE(id, code, text, advice)                                                     \
    inline constexpr MessageEntry id{#id, ErrorCode::code, text, advice};
#include <sectio/desk/messages.def>
#undef SECTIO_MESSAGE
} // namespace message

/// All of them, for proof-reading and for the tests.
inline constexpr Message desk_messages[]{
#define SECTIO_MESSAGE(id, code, text, advice) message::id,
#include <sectio/desk/messages.def>
#undef SECTIO_MESSAGE
};

} // namespace sectio
