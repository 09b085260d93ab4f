### What stands in the hall: the name shown when it is pointed at. A site may put its own words here.

part-hatch = Hatch
part-isolator = Isolator
part-lock = Hasp for my lock
part-prop = Prop for the lift
part-cord-stud = Bonding stud with the wrist cord
part-emergency-stop = Emergency stop
part-panel = Panel
part-key = Lock for the setter’s key
part-infeed-belt = Infeed belt
part-outfeed-belt = Outfeed belt
part-rack = Rack
part-slot = Slot { $slot }, { $half }
part-tower = Light tower
part-upstream = Machine upstream
part-downstream = Machine downstream
part-place-panel = Place at the panel
part-place-infeed = Place at the infeed
part-place-outfeed = Place at the outfeed
part-place-hatch = Place at the hatch
part-place-isolator = Place at the isolator
part-tray-good = Tray for good boards
part-tray-quarantine = Tray for quarantine
part-tray-scrap = Scrap bin
