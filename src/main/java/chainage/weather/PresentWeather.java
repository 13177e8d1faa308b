package chainage.weather;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The weather groups of one report, by code table 4678: intensity, descriptor, phenomena. Where several groups have water
 * falling, the strongest counts, then the first; inside a group the first, which is the dominant one. What freezes as it
 * falls is what it is; the road's temperature says the rest.
 *
 * @param words the groups as reported, those in the vicinity left out; empty when there are none
 * @param fall what they amount to; nothing when there are none
 */
record PresentWeather(String words, Fall fall) {
    private static final Pattern GROUP = Pattern.compile("(-|\\+|VC)?((?:MI|BC|PR|DR|BL|SH|TS|FZ)*)"
            + "((?:DZ|RA|SN|SG|IC|PL|GR|GS|UP|BR|FG|FU|VA|DU|SA|HZ|PY|PO|SQ|FC|SS|DS)*)");

    /** True when a token of a report has the form of such a group. */
    static boolean isGroup(String token) {
        Matcher m = GROUP.matcher(token);
        return m.matches() && m.end(3) > m.start(2);
    }

    static PresentWeather of(List<String> groups) {
        List<String> words = new ArrayList<>();
        Fall best = Fall.NOTHING;
        for (String token : groups) {
            if (token.startsWith("VC")) {
                continue;
            }
            words.add(token);
            Fall g = read(token);
            boolean stronger = g.intensity().compareTo(best.intensity()) > 0;
            boolean firstWord = best.phenomenon() == Phenomenon.NONE;
            if (stronger || firstWord) {
                best = g;
            }
        }
        return new PresentWeather(String.join(" ", words), best);
    }

    private static Fall read(String token) {
        Matcher m = GROUP.matcher(token);
        if (!m.matches()) {
            throw new IllegalArgumentException("not a present-weather group: " + token);
        }
        String sign = m.group(1) == null ? "" : m.group(1);
        // Snow or sand that the wind lifts does not fall.
        boolean lifted = m.group(2).contains("DR") || m.group(2).contains("BL");
        Phenomenon other = Phenomenon.NONE;
        for (int i = 0; i < m.group(3).length(); i += 2) {
            Phenomenon p = lifted ? Phenomenon.HAZE : phenomenon(m.group(3).substring(i, i + 2));
            if (p.falls()) {
                return new Fall(
                        p,
                        switch (sign) {
                            case "-" -> Intensity.LIGHT;
                            case "+" -> Intensity.HEAVY;
                            default -> Intensity.MODERATE;
                        });
            }
            if (other == Phenomenon.NONE) {
                other = p;
            }
        }
        return new Fall(other, Intensity.NONE);
    }

    private static Phenomenon phenomenon(String code) {
        return switch (code) {
            case "DZ" -> Phenomenon.DRIZZLE;
            case "RA", "UP" -> Phenomenon.RAIN;
            case "SN", "SG" -> Phenomenon.SNOW;
            case "IC", "PL", "GR", "GS" -> Phenomenon.ICE;
            case "BR", "FG" -> Phenomenon.MIST;
            default -> Phenomenon.HAZE;
        };
    }
}
