package padward.handover;

import java.awt.geom.AffineTransform;
import java.awt.geom.GeneralPath;
import java.io.IOException;
import java.io.InputStream;
import org.apache.fontbox.ttf.CmapLookup;
import org.apache.fontbox.ttf.GlyphData;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;

/**
 * Letters as outlines, from the fonts that the PDF uses: drawings then need no system fonts, which
 * a machine without a display may lack.
 */
final class Outlines {
    private final TrueTypeFont regular;
    private final TrueTypeFont bold;

    private Outlines(TrueTypeFont regular, TrueTypeFont bold) {
        this.regular = regular;
        this.bold = bold;
    }

    static Outlines read() throws IOException {
        return new Outlines(font("Regular"), font("Bold"));
    }

    private static TrueTypeFont font(String weight) throws IOException {
        try (InputStream in = SheetPdf.font(weight)) {
            return new TTFParser().parse(new RandomAccessReadBuffer(in));
        }
    }

    /** A text's outline, centred at x, its base line at y, y downwards. */
    GeneralPath of(Drawing.Words words) throws IOException {
        TrueTypeFont font = words.bold() ? bold : regular;
        CmapLookup glyphs = font.getUnicodeCmapLookup();
        double scale = words.size() / font.getUnitsPerEm();
        int[] letters = words.text().codePoints().map(glyphs::getGlyphId).toArray();
        double width = 0;
        for (int glyph : letters) {
            width += font.getAdvanceWidth(glyph) * scale;
        }
        GeneralPath result = new GeneralPath(GeneralPath.WIND_NON_ZERO);
        double x = words.x() - width / 2;
        for (int glyph : letters) {
            GlyphData data = font.getGlyph().getGlyph(glyph);
            if (data != null) {
                AffineTransform place = AffineTransform.getTranslateInstance(x, words.y());
                place.scale(scale, -scale);
                result.append(data.getPath().getPathIterator(place), false);
            }
            x += font.getAdvanceWidth(glyph) * scale;
        }
        return result;
    }
}
