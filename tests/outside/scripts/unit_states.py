"""Prints the transitions that packmlpy knows, one a line: from, command, to. SC = own work done.

Made with: pip install packmlpy==1.0.0; python3 unit_states.py > ../unit-states-packmlpy.txt
"""
from packmlpy.statemachine.definitions import transitions

print("# Transitions of ISA-TR88.00.02 as packmlpy 1.0.0 (PyPI, MIT) has them; scripts/unit_states.py")
for row in transitions:
    trigger = row["trigger"] if isinstance(row, dict) else row[0]
    source = row["source"] if isinstance(row, dict) else row[1]
    target = row["dest"] if isinstance(row, dict) else row[2]
    source = getattr(source, "name", source)
    target = getattr(target, "name", target)
    command = "SC" if trigger.endswith("_sc") else trigger.capitalize()
    print(source, command, target)
