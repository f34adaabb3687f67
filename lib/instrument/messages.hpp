#pragma once
/// @file
/// What the room `instrument` can say; the texts stand in messages.def beside this.

#define SECTIO_MESSAGES <sectio/instrument/messages.def>
#define SECTIO_MESSAGE_LIST instrument_messages
#include <sectio/base/room_messages.def>
