#pragma once
/// @file
/// What the room `interval` can say; the texts stand in messages.def beside this.

#define SECTIO_MESSAGES <sectio/interval/messages.def>
#define SECTIO_MESSAGE_LIST interval_messages
#include <sectio/base/room_messages.def>
