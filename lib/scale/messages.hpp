#pragma once
/// @file
/// What the room `scale` can say; the texts stand in messages.def beside this.

#define SECTIO_MESSAGES <sectio/scale/messages.def>
#define SECTIO_MESSAGE_LIST scale_messages
#include <sectio/base/room_messages.def>
