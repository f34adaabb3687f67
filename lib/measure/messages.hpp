#pragma once
/// @file
/// What the room `measure` can say; the texts stand in messages.def beside this.

#define SECTIO_MESSAGES <sectio/measure/messages.def>
#define SECTIO_MESSAGE_LIST measure_messages
#include <sectio/base/room_messages.def>
