#pragma once
/// @file
/// What the room `score` can say; the texts stand in messages.def beside this.

#define SECTIO_MESSAGES <sectio/score/messages.def>
#define SECTIO_MESSAGE_LIST score_messages
#include <sectio/base/room_messages.def>
