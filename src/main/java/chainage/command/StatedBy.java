package chainage.command;

import picocli.CommandLine.ParseResult;

/**
 * The command that states facts.
 *
 * @param typed its words, as they were understood
 * @param states whether a line of a logbook may say the same
 */
public record StatedBy(ParseResult typed, boolean states) {}
