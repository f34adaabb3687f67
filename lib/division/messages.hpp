#pragma once
/// @file
/// What the room `division` can say; the texts stand in messages.def beside this.

#define SECTIO_MESSAGES <sectio/division/messages.def>
#define SECTIO_MESSAGE_LIST division_messages
#include <sectio/base/room_messages.def>
