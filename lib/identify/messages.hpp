#pragma once
/// @file
/// What the room `identify` can say; the texts stand in messages.def beside this.

#define SECTIO_MESSAGES <sectio/identify/messages.def>
#define SECTIO_MESSAGE_LIST identify_messages
#include <sectio/base/room_messages.def>
