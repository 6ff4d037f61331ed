package padward.fabric;

import java.util.List;
import java.util.Optional;
import padward.fabric.pad.Bank;
import padward.fabric.pad.DriverSetting;
import padward.fabric.pad.Electrical;

/**
 * What a fabric says of itself apart from its graph.
 *
 * @param name name of the fabric
 * @param note free text; says "invented" where it is
 * @param cellKinds kinds of cell that its sites accept
 * @param settings settings of the pads' drivers
 * @param banks groups of pads with one supply
 * @param electrical resistances and capacitances, where known
 */
public record FabricInfo(
        String name,
        String note,
        List<CellKind> cellKinds,
        List<DriverSetting> settings,
        List<Bank> banks,
        Electrical electrical) {
    /** Copies the lists. */
    public FabricInfo {
        cellKinds = List.copyOf(cellKinds);
        settings = List.copyOf(settings);
        banks = List.copyOf(banks);
    }

    /** One of whose resistances and capacitances nothing is known. */
    public FabricInfo(
            String name,
            String note,
            List<CellKind> cellKinds,
            List<DriverSetting> settings,
            List<Bank> banks) {
        this(name, note, cellKinds, settings, banks, Electrical.UNKNOWN);
    }

    /** The driver setting of that name. */
    public Optional<DriverSetting> findSetting(String settingName) {
        return settings.stream().filter(s -> s.name().equals(settingName)).findFirst();
    }

    /** The bank of that name. */
    public Optional<Bank> findBank(String bankName) {
        return banks.stream().filter(b -> b.name().equals(bankName)).findFirst();
    }

    /** The kind of cell of that name. */
    public Optional<CellKind> findCellKind(String kindName) {
        return cellKinds.stream().filter(k -> k.name().equals(kindName)).findFirst();
    }

    /**
     * Whether cells of a kind are said to be registers or memories: for statements that they are.
     */
    public boolean holdsState(String kindName) {
        return findCellKind(kindName).filter(CellKind::holdsState).isPresent();
    }

    /**
     * Whether cells of a kind can be registers or memories, as those of an unknown kind can: for
     * what must not be followed through them.
     */
    public boolean canHoldState(String kindName) {
        return findCellKind(kindName).map(CellKind::holdsState).orElse(true);
    }
}
