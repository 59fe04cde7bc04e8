/** How well a stated temperature, and an assumed one, is the coil's own, kelvin. Common practice, no published source. */
export const STATED_TEMPERATURE_SD_K = 0.5;
export const ROOM_TEMPERATURE_SD_K = 2;
