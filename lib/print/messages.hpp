#pragma once
/// @file
/// What the room `print` can say; the texts stand in messages.def beside this.

#define SECTIO_MESSAGES <sectio/print/messages.def>
#define SECTIO_MESSAGE_LIST print_messages
#include <sectio/base/room_messages.def>
