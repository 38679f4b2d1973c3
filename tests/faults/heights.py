"""Heights as a file that any test can make."""
import pathlib

DEGREES = ('GEOGCS["WGS 84",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563]],PRIMEM["Greenwich",0],'
           'UNIT["degree",0.0174532925199433]]')


def write_heights(folder, rows=40, cols=40, name="heights.asc", rows_there=None):
    """An ASCII grid of degrees, as many of its rows as are there; answers its name."""
    folder = pathlib.Path(folder)
    lines = [f"ncols {cols}", f"nrows {rows}", "xllcorner -8.5", "yllcorner 54.0", "cellsize 0.0002", "NODATA_value -9999"]
    lines += [" ".join(str(100 + (r * 7 + c * 3) % 50) for c in range(cols)) for r in range(rows if rows_there is None else rows_there)]
    (folder / name).write_text("\n".join(lines) + "\n")
    (folder / name).with_suffix(".prj").write_text(DEGREES)
    return name
