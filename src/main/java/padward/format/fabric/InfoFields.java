package padward.format.fabric;

import static padward.format.form.Kinds.list;
import static padward.format.form.Kinds.name;
import static padward.format.form.Kinds.text;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import padward.fabric.CellKind;
import padward.fabric.FabricInfo;
import padward.fabric.pad.Bank;
import padward.fabric.pad.DriverSetting;
import padward.fabric.pad.Electrical;
import padward.format.form.Field;
import padward.format.form.Fields;
import padward.format.json.FileHeader;
import padward.format.json.Names;
import padward.format.source.FileLimits;

/** The fields that both forms of a fabric begin with: name, grid, kinds, settings, banks. */
final class InfoFields {
    /** Names of the fields that everything else of a fabric comes after. */
    static final String[] ALL = {
        "name", "note", "grid", "cellKinds", "settings", "banks", "electrical"
    };

    final Names cellKinds = new Names("kind of cell");
    final Names settings = new Names("driver setting");
    final Names banks = new Names("bank");
    final Field<GridForm> grid;
    private final Field<String> name;
    private final Field<String> note;
    private final Field<List<CellKind>> kindList;
    private final Field<List<DriverSetting>> settingList;
    private final Field<List<Bank>> bankList;
    private final Field<Electrical> electrical;

    /**
     * Adds the fields to those of a file.
     *
     * @param wireKinds the kinds of wire that the file's member {@code wires} defines; empty where
     *     it lists single wires, whose kinds are free words
     */
    <R> InfoFields(
            Fields<R> file,
            String form,
            Function<R, FabricInfo> info,
            Function<R, GridForm> gridOf,
            Optional<Names> wireKinds) {
        file.constant("format", FileHeader.FABRIC);
        file.constant("form", form);
        name =
                file.needed("name", name(), info.andThen(FabricInfo::name))
                        .means("name of the fabric");
        note =
                file.optional("note", text(FileLimits.NOTE), "", info.andThen(FabricInfo::note))
                        .means("for people");
        grid = file.needed("grid", InfoForms.grid(), gridOf).means("the grid of tiles");
        kindList =
                file.stated(
                                "cellKinds",
                                list(CellKindForms.kind(cellKinds).checked(CellKindForms::check)),
                                List.of(),
                                info.andThen(FabricInfo::cellKinds))
                        .means("kinds of cell");
        settingList =
                file.stated(
                                "settings",
                                list(InfoForms.setting(settings).checked(InfoForms::check)),
                                List.of(),
                                info.andThen(FabricInfo::settings))
                        .means("settings of pads' drivers");
        bankList =
                file.stated(
                                "banks",
                                list(InfoForms.bank(banks)),
                                List.of(),
                                info.andThen(FabricInfo::banks))
                        .means("groups of pads with one supply");
        electrical =
                file.optional(
                                "electrical",
                                InfoForms.electrical(wireKinds),
                                Electrical.UNKNOWN,
                                info.andThen(FabricInfo::electrical))
                        .means("resistances, ohms, and capacitances, femtofarads");
        if (wireKinds.isPresent()) {
            electrical.after("wires");
        }
    }

    FabricInfo get() {
        return new FabricInfo(
                name.get(),
                note.get(),
                kindList.get(),
                settingList.get(),
                bankList.get(),
                electrical.get());
    }
}
