"""Words for a passphrase that can be typed on a tablet with cold fingers: short and plain."""

from __future__ import annotations

import secrets

HOW_MANY = 4
"""Words in a passphrase: 2^32 of them, and only a few guesses a minute."""

_LIST = """
    acorn adobe amber anvil apple apron arrow ashen aspen attic autumn badge bagel baker bamboo
    banjo barley barn basil basin basket beacon beaver beech bell bench berry birch bison
    blanket blossom board bobbin bonnet border bottle branch brass bread breeze brick bridge
    broom brush bucket buffalo bundle butter button cabin cactus camel candle canoe canvas
    canyon carbon carrot castle cedar cellar chalk cherry chestnut chimney cider cinder circle
    citrus clay clover cobalt cocoa coffee comet copper coral cotton cradle crane crayon
    cricket crown crystal cypress daisy dapple dawn desert dinner dolphin donkey dragon drum
    eagle early easel echo elbow ember engine evening fabric falcon feather fern fiddle field
    finch flannel flint flour flower forest fossil fountain fox garden garlic garnet gentle
    ginger glacier glass goose grain granite grape gravel guitar hammer harbor harvest hazel
    heron hickory hollow honey horizon hornet hotel igloo indigo island ivory jacket jasmine
    jelly jigsaw juniper kayak kernel kettle kitchen kitten ladder lagoon lantern laurel lemon
    lentil lilac linen lizard lobster lumber magnet mango maple marble meadow melon mint mirror
    mitten moose morning mosaic mountain mustard nectar needle nickel nutmeg oasis oats olive
    onion orange orchard otter oyster paddle panda paper parrot pasture peach pebble pencil
    pepper pewter piano pigeon pillow pine planet plaster plum pocket pollen poplar potato
    prairie pumpkin quarry quartz quilt rabbit radish raisin raven ribbon river robin rocket
    rope saddle saffron salmon sandal satin shadow shovel silver sparrow spruce summer sunset
    thimble thistle thunder ticket tiger timber topaz trumpet tulip tundra turnip velvet violet
    wagon walnut willow window
"""
WORDS = tuple(_LIST.split())


def new_passphrase() -> str:
    """A fresh passphrase."""
    return " ".join(secrets.choice(WORDS) for _ in range(HOW_MANY))
