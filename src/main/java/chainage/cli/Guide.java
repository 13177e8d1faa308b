package chainage.cli;

import chainage.attribution.AttributedRide;
import java.util.List;

/** The next command to type, for a rider who is not there yet. */
final class Guide {
    private Guide() {}

    /** What comes next while nothing can be answered. */
    static String next(Picture picture) {
        if (picture.rides().isEmpty() && picture.ledger().bikes().isEmpty()) {
            return "Nothing here yet. Import your rides: chainage import FOLDER" + System.lineSeparator()
                    + "Or see an invented season first: chainage demo";
        }
        if (picture.ledger().bikes().isEmpty()) {
            return "No bike yet. Add one: chainage bike add NAME";
        }
        if (picture.ledger().chains().isEmpty()) {
            return "No chain yet. Add one: chainage chain add NAME";
        }
        return "No chain in use. Add one: chainage chain add NAME";
    }

    /** How to give rides without a chain theirs. */
    static String attribute(Picture picture, Words words) {
        List<AttributedRide> bare = picture.exposures().unattributed();
        if (picture.ledger().bikes().isEmpty()) {
            return "Next: chainage bike add NAME";
        }
        AttributedRide noBike =
                bare.stream().filter(r -> r.bike() == null).findFirst().orElse(null);
        if (noBike != null) {
            return "Next: chainage assign " + noBike.id() + " --bike NAME, or a rule for many: chainage assign --help";
        }
        if (picture.ledger().chains().isEmpty()) {
            return "Next: chainage chain add NAME";
        }
        AttributedRide first = bare.get(0);
        String bike = String.valueOf(first.bike());
        return "Next: chainage install CHAIN " + Words.typed(Words.safe(bike)) + " --on "
                + words.date(first.filed().ride().start());
    }
}
