#pragma once
/// @file
/// What the room `sound` can say; the texts stand in messages.def beside this.

#define SECTIO_MESSAGES <sectio/sound/messages.def>
#define SECTIO_MESSAGE_LIST sound_messages
#include <sectio/base/room_messages.def>
