package padward.format.fabric;

import static padward.format.form.Kinds.atCorners;
import static padward.format.form.Kinds.choice;
import static padward.format.form.Kinds.delay;
import static padward.format.form.Kinds.delayInTwoColumns;
import static padward.format.form.Kinds.flag;
import static padward.format.form.Kinds.knownWord;
import static padward.format.form.Kinds.list;
import static padward.format.form.Kinds.name;
import static padward.format.form.Kinds.newName;
import static padward.format.form.Kinds.present;
import static padward.format.form.Kinds.real;
import static padward.format.form.Kinds.text;
import static padward.format.form.Kinds.whole;
import static padward.format.form.Kinds.word;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Supplier;
import padward.base.BadInput;
import padward.fabric.FabricLimits;
import padward.fabric.delay.AtCorners;
import padward.fabric.delay.Delay;
import padward.fabric.pad.Bank;
import padward.fabric.pad.DriverSetting;
import padward.fabric.pad.EdgeDelays;
import padward.fabric.pad.Electrical;
import padward.fabric.pad.Electrical.SwitchLoad;
import padward.fabric.pad.Electrical.WireLoad;
import padward.fabric.pad.PadDriverOutput;
import padward.fabric.pad.PadDriving;
import padward.fabric.pad.PadEnable;
import padward.fabric.pad.PadUse;
import padward.fabric.pad.PadUse.Bonding;
import padward.fabric.pad.PadUse.Role;
import padward.format.form.Fields;
import padward.format.form.Form;
import padward.format.form.Kind;
import padward.format.json.JsonIn;
import padward.format.json.Names;
import padward.format.source.FileLimits;
import padward.format.source.Text;

/** The forms of what every fabric states in general, in files and in tables. */
public final class InfoForms {
    private static final List<String> WORDS =
            List.of(Electrical.PIN, Electrical.PAD, Electrical.ANY);

    private InfoForms() {}

    /** Columns and rows of a grid. */
    static Form<GridForm> grid() {
        var grid = new Fields<GridForm>();
        var columns =
                grid.needed("columns", whole(1, FabricLimits.GRID_SIDE), GridForm::columns)
                        .means("tiles in a row");
        var rows =
                grid.needed("rows", whole(1, FabricLimits.GRID_SIDE), GridForm::rows)
                        .means("tiles in a column");
        return grid.makes(() -> new GridForm(columns.get(), rows.get()));
    }

    /** A setting of a pad's driver. */
    public static Form<DriverSetting> setting(Names settings) {
        var setting = new Fields<DriverSetting>();
        var name =
                setting.needed("name", newName(settings), DriverSetting::name)
                        .means("name of the setting");
        var standard =
                setting.stated("standard", word(), "", DriverSetting::standard)
                        .means("signalling standard; otherwise none");
        var millivolts =
                setting.needed(
                                "millivolts",
                                whole(0, FileLimits.ELECTRIC),
                                DriverSetting::millivolts)
                        .means("supply of the bank");
        var milliamps =
                setting.needed("milliamps", whole(0, FileLimits.ELECTRIC), DriverSetting::milliamps)
                        .means("drive strength");
        var slew =
                setting.stated(
                                "slew",
                                choice(new String[] {"slow", "fast"}, word -> word),
                                "slow",
                                DriverSetting::slew)
                        .means("`slow` or `fast`; otherwise `slow`");
        var delay =
                setting.needed("delay_ps", delay(), DriverSetting::delay)
                        .means("from the driver's input to the pad");
        var output =
                setting.optional(
                                "output",
                                present(output()),
                                Optional.empty(),
                                DriverSetting::output)
                        .means("what is known of its output");
        var differential =
                setting.optional("differential", flag(), false, DriverSetting::differential)
                        .means(
                                "if it drives two pads as a pair; otherwise only when the standard's"
                                        + " name says so");
        var edges =
                setting.optional("edges", present(edges()), Optional.empty(), DriverSetting::edges)
                        .means("its delay for each of the two edges, where known");
        return setting.makes(
                () ->
                        new DriverSetting(
                                name.get(),
                                standard.get(),
                                millivolts.get(),
                                milliamps.get(),
                                slew.get(),
                                delay.get(),
                                output.get(),
                                differential.get(),
                                edges.get()));
    }

    /** What does not go together in a setting, if anything. */
    public static Optional<CellKindForms.Fault> faultOf(DriverSetting setting) {
        return setting.edges()
                .map(EdgeDelays::either)
                .filter(either -> !either.equals(setting.delay()))
                .map(
                        either ->
                                new CellKindForms.Fault(
                                        "slow_ps",
                                        "a delay that spans both edges, ["
                                                + either.fastPs()
                                                + ", "
                                                + either.slowPs()
                                                + "]",
                                        "["
                                                + setting.delay().fastPs()
                                                + ", "
                                                + setting.delay().slowPs()
                                                + "]"));
    }

    static void check(JsonIn in, DriverSetting setting) throws BadInput {
        Optional<CellKindForms.Fault> fault = faultOf(setting);
        if (fault.isPresent()) {
            throw in.fault(fault.get().expected(), fault.get().found());
        }
    }

    private static Form<EdgeDelays> edges() {
        var edges = new Fields<EdgeDelays>();
        var toHigh =
                edges.needed("toHigh_ps", delayInTwoColumns(), EdgeDelays::toHigh)
                        .means("from the driver's input to the pad, for an edge to high");
        var toLow =
                edges.needed("toLow_ps", delayInTwoColumns(), EdgeDelays::toLow)
                        .means("the same for an edge to low; `delay_ps` spans both");
        return edges.makes(() -> new EdgeDelays(toHigh.get(), toLow.get()));
    }

    private static Form<PadDriverOutput> output() {
        var output = new Fields<PadDriverOutput>();
        var rated =
                output.needed("rated_pf", real(0, FileLimits.LOAD_PF), PadDriverOutput::ratedPf)
                        .means(
                                "load for which the delays are given; a setting that states one fact of its"
                                        + " output states all but `most_mhz`");
        var rise =
                output.needed("rise_ps", delayInTwoColumns(), PadDriverOutput::rise)
                        .means("rise time from 10 to 90 %");
        var ohms =
                output.needed("ohms", atCorners(FileLimits.OHMS), PadDriverOutput::ohms)
                        .means("output resistance");
        var most =
                output.optional(
                                "most_mhz",
                                whole(1, FileLimits.ELECTRIC),
                                0,
                                PadDriverOutput::mostMhz)
                        .means("highest frequency that the maker allows; otherwise unknown");
        return output.makes(
                () -> new PadDriverOutput(rated.get(), rise.get(), ohms.get(), most.get()));
    }

    /** A bank. */
    public static Form<Bank> bank(Names banks) {
        var bank = new Fields<Bank>();
        var name = bank.needed("name", newName(banks), Bank::name).means("name of the bank");
        var millivolts =
                bank.needed("millivolts", whole(0, FileLimits.ELECTRIC), Bank::millivolts)
                        .means("supply of its drivers");
        return bank.makes(() -> new Bank(name.get(), millivolts.get()));
    }

    /**
     * Resistances and capacitances.
     *
     * @param wireKinds the kinds of wire that may be named; empty when any may
     */
    static Form<Electrical> electrical(Optional<Names> wireKinds) {
        var both = new Fields<Electrical>();
        var wires =
                both.stated("wires", list(wireLoad(wireKinds)), List.of(), Electrical::wires)
                        .means("of a kind of wire, from end to end");
        var switches =
                both.stated(
                                "switches",
                                list(switchLoad(wireKinds)),
                                List.of(),
                                Electrical::switches)
                        .means(
                                "of switches and fixed connections; the first entry that matches counts");
        return both.makes(() -> new Electrical(wires.get(), switches.get()));
    }

    /** Resistance and capacitance of a kind of wire. */
    public static Form<WireLoad> wireLoad(Optional<Names> wireKinds) {
        var load = new Fields<WireLoad>();
        var wire =
                load.needed("wire", kindOfWire(wireKinds, false), WireLoad::wire)
                        .means("kind of wire")
                        .column("kind");
        var ohms = load.needed("ohms", ohms(), WireLoad::ohms).means("resistance");
        var farads =
                load.needed("femtofarads", ohms(), WireLoad::femtofarads)
                        .means("capacitance, femtofarads,")
                        .column("ff");
        return load.makes(() -> new WireLoad(wire.get(), ohms.get(), farads.get()));
    }

    /** Resistance and capacitance of switches. */
    public static Form<SwitchLoad> switchLoad(Optional<Names> wireKinds) {
        var load = new Fields<SwitchLoad>();
        var from =
                load.needed("from", kindOfWire(wireKinds, true), SwitchLoad::from)
                        .means("kind of wire that it leaves, or `pin`, `pad`, `*` for any");
        var to =
                load.needed("to", kindOfWire(wireKinds, true), SwitchLoad::to)
                        .means("kind of wire that it enters, or `pin`, `pad`, `*`");
        var buffered =
                load.stated("buffered", flag(), true, SwitchLoad::buffered)
                        .means(
                                "whether it drives what it enters; pass transistors and plain metal do not;"
                                        + " otherwise it does");
        var ohms = load.needed("ohms", ohms(), SwitchLoad::ohms).means("resistance");
        var farads =
                load.needed("femtofarads", ohms(), SwitchLoad::femtofarads)
                        .means("capacitance, femtofarads,")
                        .column("ff");
        return load.makes(
                () ->
                        new SwitchLoad(
                                from.get(), to.get(), buffered.get(), ohms.get(), farads.get()));
    }

    private static Kind<AtCorners> ohms() {
        return atCorners(FileLimits.OHMS);
    }

    private static Kind<String> kindOfWire(Optional<Names> wireKinds, boolean wordsToo) {
        return wireKinds.isEmpty()
                ? name()
                : name().checked(
                                (in, kind) -> {
                                    if (!wordsToo || !WORDS.contains(kind)) {
                                        wireKinds.get().check(in, kind);
                                    }
                                });
    }

    /** A pin of the package, which only one pad can have; empty for none. */
    static Kind<String> packagePin(Set<String> taken) {
        return text(FabricLimits.NAME_LENGTH)
                .checked(
                        (in, pin) -> {
                            if (!pin.isEmpty() && !taken.add(pin)) {
                                throw in.fault(
                                        "a pin that only one pad has", Text.quote(pin) + " again");
                            }
                        });
    }

    /** The fields that say what is known of the enable of a pad's driver. */
    static <R> Supplier<PadEnable> enable(Fields<R> pad, Function<? super R, PadEnable> enable) {
        var active =
                pad.optional(
                                "enableActive",
                                choice(PadEnable.Active.values()),
                                PadEnable.Active.UNKNOWN,
                                p -> enable.apply(p).active())
                        .means("level at its enable that switches its driver on");
        var unconnected =
                pad.optional(
                                "enableUnconnected",
                                choice(PadEnable.Unconnected.values()),
                                PadEnable.Unconnected.UNKNOWN,
                                p -> enable.apply(p).unconnected())
                        .means("what its driver is while nothing is connected to its enable");
        return () -> new PadEnable(active.get(), unconnected.get());
    }

    /** Adds the fields that say what a pad is meant for; what is not known is left out. */
    static <R> Supplier<PadUse> use(
            Fields<R> pad, Names settings, Function<? super R, PadUse> use) {
        Kind<Bonding> toPin =
                flag().as(
                                (in, bonded) -> bonded ? Bonding.BONDED : Bonding.UNBONDED,
                                bonding -> bonding == Bonding.BONDED);
        var bonded =
                pad.optional("bonded", toPin, Bonding.UNKNOWN, r -> use.apply(r).bonding())
                        .means("whether the package connects it to a pin; otherwise unknown");
        Kind<Role> roles = choice(Role.values(), Role::label);
        var role =
                pad.optional("role", roles, Role.GENERAL, r -> use.apply(r).role())
                        .means("what it is meant for; otherwise `general`");
        var inPackage =
                pad.optional("package_ps", delay(), Delay.ZERO, r -> use.apply(r).packageDelay())
                        .means("delay of the package from the pad to the pin; otherwise 0");
        var inverts =
                pad.optional("inverts", flag(), false, r -> use.apply(r).driving().inverts())
                        .means("whether the path through its IO register site and driver inverts");
        var legal =
                pad.optional(
                                "legalSettings",
                                list(knownWord(settings)),
                                List.of(),
                                r -> use.apply(r).driving().settings())
                        .means("the settings that it has; otherwise all for its bank's voltage");
        var partner =
                pad.optional("partner", word(), "", r -> use.apply(r).driving().partner())
                        .means("full name of the other pad of a differential pair; otherwise none");
        return () ->
                new PadUse(
                        bonded.get(),
                        role.get(),
                        inPackage.get(),
                        new PadDriving(inverts.get(), legal.get(), partner.get()));
    }
}
