#pragma once
/// @file
/// What the room `tuning` can say; the texts stand in messages.def beside this.

#define SECTIO_MESSAGES <sectio/tuning/messages.def>
#define SECTIO_MESSAGE_LIST tuning_messages
#include <sectio/base/room_messages.def>
