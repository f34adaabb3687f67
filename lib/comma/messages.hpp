#pragma once
/// @file
/// What the room `comma` can say; the texts stand in messages.def beside this.

#define SECTIO_MESSAGES <sectio/comma/messages.def>
#define SECTIO_MESSAGE_LIST comma_messages
#include <sectio/base/room_messages.def>
