#pragma once
/// @file
/// What the room `source` can say; the texts stand in messages.def beside this.

#define SECTIO_MESSAGES <sectio/source/messages.def>
#define SECTIO_MESSAGE_LIST source_messages
#include <sectio/base/room_messages.def>
