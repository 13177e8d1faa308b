package chainage.answer;

import chainage.ledger.Method;

/** The usual cautions, shown where a rider is about to heat, clean or replace. Facts of the trade, in our words. */
public final class Safety {
    public static final String TREATING =
            "Care: heat wax in a water bath or by thermostat, with a thermometer, never over a flame nor left alone;"
                    + " the chain must be bone dry first, since water makes hot wax spit. Burning wax: heat off, lid"
                    + " on, never water. Use solvents with fresh air, gloves and eye protection, away from any spark."
                    + " Keep every product off rims, rotors and pads. The maker's data sheet and local rules come"
                    + " first.";

    public static final String REPLACING =
            "Check with a gauge before you buy: a forecast never overrules a reading. A cracked, stiff, bent or rusted"
                    + " link means a new chain whatever the figures say. If in doubt ask a qualified mechanic.";

    public static final String SALT =
            "Salt rusts a chain: after such a ride rinse it with clean water, no jet, dry it, and treat it soon.";

    private Safety() {}

    /** One line for a treatment that is due. */
    public static String treating(Method method) {
        if (method == Method.HOT_WAX) {
            return "Hot wax: water bath or thermostat, dry chain, never unattended; more under chainage treat --help.";
        }
        return "Keep products off rims, rotors and pads; use solvents with fresh air and gloves (chainage treat --help).";
    }
}
