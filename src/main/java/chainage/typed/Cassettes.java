package chainage.typed;

import chainage.host.Resource;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The usual lists of cogs, so that a rider may name one by its smallest and biggest cog. Common practice. */
final class Cassettes {
    private static final Pattern RANGE =
            Pattern.compile("\\s*(\\d{1,2})\\s*-\\s*(\\d{1,2})\\s*(?:/\\s*(\\d{1,2})\\s*)?");

    private Cassettes() {}

    /**
     * The list that a range stands for.
     *
     * @param typed such as {@code 11-28/11}; the count may be left out where only one list fits
     */
    static List<Integer> of(String typed) {
        Matcher range = RANGE.matcher(typed);
        if (!range.matches()) {
            throw CliError.usage(
                    "--cogs \"" + typed + "\" is neither a list nor a range",
                    "write teeth such as 11,13,15,17, or a range with the number of cogs such as 11-28/11");
        }
        int first = Integer.parseInt(range.group(1));
        int last = Integer.parseInt(range.group(2));
        String count = range.group(3);
        List<List<Integer>> fits = usual().stream()
                .filter(c -> c.get(0) == first && c.get(c.size() - 1) == last)
                .filter(c -> count == null || c.size() == Integer.parseInt(count))
                .toList();
        if (fits.size() == 1) {
            return fits.get(0);
        }
        if (fits.isEmpty()) {
            throw CliError.usage(
                    "--cogs \"" + typed + "\" is no usual list", "name the cogs one by one such as 11,13,15");
        }
        List<String> counts = fits.stream()
                .sorted(Comparator.comparing(List::size))
                .map(c -> first + "-" + last + "/" + c.size())
                .toList();
        throw CliError.usage(
                "--cogs \"" + typed + "\" fits several usual lists", "write " + String.join(" or ", counts));
    }

    static List<List<Integer>> usual() {
        List<List<Integer>> lists = new ArrayList<>();
        for (String line :
                Resource.text("/chainage/typed/cassettes.txt").lines().toList()) {
            if (!line.isBlank() && !line.startsWith("#")) {
                lists.add(List.of(line.strip().split(",", -1)).stream()
                        .map(Integer::valueOf)
                        .toList());
            }
        }
        return lists;
    }
}
