#pragma once
/// @file
/// What the room `page` can say; the texts stand in messages.def beside this.

#define SECTIO_MESSAGES <sectio/page/messages.def>
#define SECTIO_MESSAGE_LIST page_messages
#include <sectio/base/room_messages.def>
