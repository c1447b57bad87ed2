package org.jointwalk.architecture.offender.solve;

/** One of two public classes of a package that may show one. */
public final class FirstShown {}
