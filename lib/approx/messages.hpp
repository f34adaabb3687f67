#pragma once
/// @file
/// What the room `approx` can say; the texts stand in messages.def beside this.

#define SECTIO_MESSAGES <sectio/approx/messages.def>
#define SECTIO_MESSAGE_LIST approx_messages
#include <sectio/base/room_messages.def>
