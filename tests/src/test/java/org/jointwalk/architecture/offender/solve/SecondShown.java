package org.jointwalk.architecture.offender.solve;

/** The other one. */
public final class SecondShown {}
