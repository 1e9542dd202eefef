"""Published tables of vehicle electrics, each figure beside its source and standing.

conductors    wire resistance by cross-section and temperature, a guide to current
fuses         blade fuses: ratings, colours, resistance
fuse_times    how long a blade fuse carries too much
fusible_links the current that melts a copper wire, and how soon
breakers      circuit breakers of SAE J553: types, times
lamps         the law of a filament lamp's current and light against voltage
lamp_ratings  lamps of UN Regulation 37
leds          forward voltage of LEDs, how many stand in a chain
loads         horns, solenoids, PTC heaters, glow plugs, suppressors, standing loads
contacts      resistance of terminals, joints, fuse holders, switch and relay contacts
supplies      battery and charging voltages, internal resistance
charging      what charging sources give and leak, what a battery takes
starters      windings and contact of starter solenoids
meters        input resistance, limits of error, test currents, test lamps
drops         voltage that a sound stretch of circuit may lose
relays        coil resistance, pull-in and drop-out, contact ratings
sensors       thermistors, 5 V supply, Hall and reed switches, bus levels
failures      how often each kind of part fails, and in which mode
colours       wire colour codes of IEC 60757
terminals     terminal numbers of DIN 72552, relay pins of ISO 7588-1

`sources` says what a standing means. Nothing here reads a file.
"""
