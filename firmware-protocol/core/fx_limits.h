/* What is set aside at build time. Each can be given to the compiler with -D; RAM grows with it. */
#ifndef FX_LIMITS_H
#define FX_LIMITS_H

/* Channels, 8 to 65,528, a multiple of 8; 10.5 bits of RAM each with 8 sets more. Default 512. */
#ifndef FX_CHANNELS
#define FX_CHANNELS 512
#endif

/* Steps of the program, 16 to 65,535; 10 bytes each. Default 256. */
#ifndef FX_STEPS
#define FX_STEPS 256
#endif

/* Setting slots, 8 to 128; 40 bytes each. Default 16. */
#ifndef FX_SETTINGS
#define FX_SETTINGS 16
#endif

/* Set slots, 0 or 4 to 255; FX_CHANNELS bits each. Default 8. */
#ifndef FX_SETS
#define FX_SETS 8
#endif

/* Points of one step, 1 to 24; 8 bytes each and reader. Default 24. */
#ifndef FX_POINTS
#define FX_POINTS 24
#endif

/* Readings taken at once, 1 to 16; about 260 bytes each. Default 1. */
#ifndef FX_READERS
#define FX_READERS 1
#endif

/* Ring of received bytes, a power of two from 256 to 32,768. Default 256. */
#ifndef FX_RING
#define FX_RING 256
#endif

/* 1: fx_init does not look at the configuration, which saves 700 bytes of flash. For an image whose
   configuration is constant and passed in another build. Default 0. */
#ifndef FX_TRUSTED
#define FX_TRUSTED 0
#endif

#endif
