package org.jointwalk.architecture.offender.quantity;

@SuppressWarnings("ArrayRecordComponent") // the compiler knows this offence too
record HoldsAnArray(double[] values) {}
