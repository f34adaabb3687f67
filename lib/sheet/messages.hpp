#pragma once
/// @file
/// What the room `sheet` can say; the texts stand in messages.def beside this.

#define SECTIO_MESSAGES <sectio/sheet/messages.def>
#define SECTIO_MESSAGE_LIST sheet_messages
#include <sectio/base/room_messages.def>
