#pragma once
/// @file
/// What the room `desk` can say; the texts stand in messages.def beside this.

#define SECTIO_MESSAGES <sectio/desk/messages.def>
#define SECTIO_MESSAGE_LIST desk_messages
#include <sectio/base/room_messages.def>
