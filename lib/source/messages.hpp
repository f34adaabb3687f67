#pragma once
/// @file
/// What the room `source` can say; the texts stand in messages.def beside this.

#include <sectio/base/error.hpp>

namespace sectio {

namespace message {
#define SECTIO_MESSAGE(id, code, text, advice)                                                     \
    inline constexpr MessageEntry id{#id, ErrorCode::code, text, advice};
#include <sectio/source/messages.def>
#undef SECTIO_MESSAGE
} // namespace message

/// All of them, for proof-reading and for the tests.
inline constexpr Message source_messages[]{
#define SECTIO_MESSAGE(id, code, text, advice) message::id,
#include <sectio/source/messages.def>
#undef SECTIO_MESSAGE
};

} // namespace sectio
