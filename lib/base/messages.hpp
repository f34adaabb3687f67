#pragma once
/// @file
/// What the room `base` can say; the texts stand in messages.def beside this.

#define SECTIO_MESSAGES <sectio/base/messages.def>
#define SECTIO_MESSAGE_LIST base_messages
#include <sectio/base/room_messages.def>
