//! Lumped heat: walls, evaporation, mixing, heater and lamp.
