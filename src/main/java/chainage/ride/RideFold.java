package chainage.ride;

/** Gathers one activity's figures from its samples in one pass. */
public final class RideFold {}
