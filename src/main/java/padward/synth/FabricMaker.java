package padward.synth;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import padward.fabric.CellKind;
import padward.fabric.FabricInfo;
import padward.fabric.delay.Delay;
import padward.fabric.pad.Bank;
import padward.fabric.pad.DriverSetting;
import padward.fabric.pad.PadDirections;
import padward.fabric.pad.PadUse;
import padward.fabric.pattern.PatternSpec;
import padward.fabric.pattern.PatternSpec.Area;
import padward.fabric.pattern.PatternSpec.PadOverride;
import padward.fabric.pattern.PatternSpec.WireKind;

/**
 * Makes invented fabrics: a rim of IO tiles, columns of logic with columns of memory and of
 * multipliers between, a clock spine in the middle, wires of three lengths in four directions.
 */
public final class FabricMaker {
    /** Wires that start in each tile. */
    static final int WIRES_PER_TILE = 42;

    /** The directions that wires run in: east, west, north, south. */
    static final List<String> DIRECTIONS = List.of("e", "w", "n", "s");

    private static final int LEAST_SIDE = 8;
    private static final int COLUMN_PERIOD = 10;
    private static final int PADS_PER_TILE = 2;

    private FabricMaker() {}

    /**
     * A fabric of about that many wires, as near to square as whole tiles allow.
     *
     * @param wires number of wires, about
     * @param seed seed of what is left to chance: which pads are input-only, which have a route
     *     around their IO register
     */
    public static PatternSpec make(int wires, long seed) {
        int side =
                Math.max(LEAST_SIDE, (int) Math.round(Math.sqrt((double) wires / WIRES_PER_TILE)));
        Random random = new Random(seed);
        FabricInfo info =
                new FabricInfo(
                        "larch-" + side + "x" + side + "-" + seed,
                        "Invented fabric, made from seed " + seed + ".",
                        List.of(
                                CellKind.lookupTable("lookup-table", MadeTileTypes.LOOKUP_TABLE),
                                CellKind.register("register", MadeTileTypes.REGISTER),
                                new CellKind("memory", true),
                                new CellKind("multiplier", false),
                                new CellKind("io-register", true)),
                        List.of(
                                setting("lv33-8", "LVCMOS 3.3 V", 3300, 8, "slow", 1900, 3100),
                                setting("lv33-16", "LVCMOS 3.3 V", 3300, 16, "fast", 1100, 1900),
                                setting("lv18-8", "LVCMOS 1.8 V", 1800, 8, "slow", 2300, 3800),
                                setting("lv18-12", "LVCMOS 1.8 V", 1800, 12, "fast", 1500, 2500)),
                        List.of(
                                new Bank("west", 3300),
                                new Bank("north", 1800),
                                new Bank("east", 3300),
                                new Bank("south", 3300)));
        return new PatternSpec(
                info,
                side,
                side,
                wireKinds(),
                MadeTileTypes.all(PADS_PER_TILE),
                areas(side, random),
                pads(side, random));
    }

    /** As {@link #make}, with wires that run far across the chip and have taps on their way. */
    public static PatternSpec makeWithLongLines(int wires, long seed) {
        return LongLines.addTo(make(wires, seed));
    }

    private static DriverSetting setting(
            String name, String standard, int mV, int mA, String slew, int fast, int slow) {
        return new DriverSetting(name, standard, mV, mA, slew, new Delay(fast, slow));
    }

    private static List<WireKind> wireKinds() {
        List<WireKind> kinds = new ArrayList<>();
        addFour(kinds, 1, 6, new Delay(60, 100));
        addFour(kinds, 3, 2, new Delay(105, 180));
        addFour(kinds, 7, 2, new Delay(180, 315));
        kinds.add(new WireKind("clock_e", 1, 0, 1, new Delay(40, 70), false, "clock"));
        kinds.add(new WireKind("clock_w", -1, 0, 1, new Delay(40, 70), false, "clock"));
        kinds.add(new WireKind("clock_n", 0, 1, 1, new Delay(40, 70), false, "clock"));
        return kinds;
    }

    private static void addFour(List<WireKind> kinds, int length, int count, Delay delay) {
        for (String direction : DIRECTIONS) {
            int dx = direction.equals("e") ? length : direction.equals("w") ? -length : 0;
            int dy = direction.equals("n") ? length : direction.equals("s") ? -length : 0;
            kinds.add(
                    new WireKind(kind(length, direction), dx, dy, count, delay, false, "general"));
        }
    }

    /** Name of the wires of one length and direction: {@code run3_e} runs 3 tiles east. */
    static String kind(int length, String direction) {
        return "run" + length + "_" + direction;
    }

    /** Column of the clock's spine. */
    static int spine(int side) {
        return side / 2;
    }

    private static List<Area> areas(int side, Random random) {
        int last = side - 1;
        int spine = spine(side);
        List<Area> areas = new ArrayList<>();
        areas.add(new Area("corner", 0, last, 0, last, 1));
        areas.add(new Area("logic", 1, last - 1, 1, last - 1, 1));
        areas.add(new Area("memory", Math.min(5, last - 1), last - 1, 1, last - 1, COLUMN_PERIOD));
        if (side > COLUMN_PERIOD) {
            areas.add(new Area("multiplier", 8, last - 1, 1, last - 1, COLUMN_PERIOD));
        }
        areas.add(new Area("spine", spine, spine, 1, last - 1, 1));
        addRim(areas, 0, 0, 1, last - 1, random);
        addRim(areas, last, last, 1, last - 1, random);
        addRim(areas, 1, last - 1, 0, 0, random);
        addRim(areas, 1, last - 1, last, last, random);
        areas.add(new Area("rim-clock", spine, spine, 0, 0, 1));
        areas.add(new Area("rim-top", spine, spine, last, last, 1));
        return areas;
    }

    /** One side of the rim; about a quarter of its tiles have routes around their IO registers. */
    private static void addRim(List<Area> areas, int x0, int x1, int y0, int y1, Random random) {
        areas.add(new Area("rim", x0, x1, y0, y1, 1));
        for (int x = x0; x <= x1; x++) {
            for (int y = y0; y <= y1; y++) {
                if (random.nextInt(4) == 0) {
                    areas.add(new Area("rim-around", x, x, y, y, 1));
                }
            }
        }
    }

    private static List<PadOverride> pads(int side, Random random) {
        List<PadOverride> pads = new ArrayList<>();
        for (int i = 1; i < side - 1; i++) {
            addPads(pads, 0, i, "west", "lv33-8", random);
            addPads(pads, i, side - 1, "north", "lv18-8", random);
            addPads(pads, side - 1, i, "east", "lv33-8", random);
            addPads(pads, i, 0, "south", "lv33-8", random);
        }
        return pads;
    }

    private static void addPads(
            List<PadOverride> pads, int x, int y, String bank, String setting, Random random) {
        for (int i = 0; i < PADS_PER_TILE; i++) {
            boolean clockPad = bank.equals("south") && i == 0;
            boolean inputOnly = !clockPad && random.nextInt(16) == 0;
            String pin =
                    bank.substring(0, 1).toUpperCase(Locale.ROOT)
                            + (PADS_PER_TILE * (bank.equals("west") || bank.equals("east") ? y : x)
                                    + i);
            pads.add(
                    new PadOverride(
                            "x" + x + "y" + y + "/pad[" + i + "]",
                            pin,
                            bank,
                            inputOnly ? Optional.of(PadDirections.IN) : Optional.empty(),
                            setting,
                            PadUse.UNSTATED));
        }
    }
}
