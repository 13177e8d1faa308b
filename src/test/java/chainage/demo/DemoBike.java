package chainage.demo;

import java.util.List;

/**
 * A bike of the invented rider. Masses, drag and rolling figures are our guesses at ordinary ones.
 *
 * @param name as in setup.txt
 * @param rings teeth, the biggest first
 * @param cogs teeth, the smallest first
 * @param circumferenceMetres of the wheel
 * @param kilograms rider and bike
 * @param dragAreaSquareMetres drag coefficient times frontal area
 * @param rolling coefficient of rolling resistance
 */
record DemoBike(
        String name,
        List<Integer> rings,
        List<Integer> cogs,
        double circumferenceMetres,
        double kilograms,
        double dragAreaSquareMetres,
        double rolling) {
    static final DemoBike DUNLIN = new DemoBike(
            "Dunlin", List.of(50, 34), List.of(11, 12, 13, 14, 15, 17, 19, 21, 24, 27, 30), 2.105, 81, 0.34, 0.0045);
    static final DemoBike NATTERJACK = new DemoBike(
            "Natterjack", List.of(40), List.of(11, 13, 15, 17, 19, 21, 24, 28, 32, 37, 42), 2.170, 83, 0.39, 0.0085);

    DemoBike {
        rings = List.copyOf(rings);
        cogs = List.copyOf(cogs);
    }

    static DemoBike named(String name) {
        return List.of(DUNLIN, NATTERJACK).stream()
                .filter(b -> b.name().equals(name))
                .findFirst()
                .orElseThrow();
    }

    boolean isDunlin() {
        return equals(DUNLIN);
    }
}
