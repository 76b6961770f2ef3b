"""The bare steps of parting fruit from a sheet by general image libraries, on one core, on the picture that the bench measures.

    python peers.py PICTURE.jpg

Steps: decode; CIELAB; distance of colour from the sheet's; Otsu's threshold; open, clear the frame, fill holes; distance to the
border; seeds; watershed; areas and axes. No card, no pose, no height taken out, no outlines between the pixels, no colour.
"""

import sys
import time

import cv2
import numpy as np
from scipy import ndimage
from skimage import color, filters, io, measure, morphology, segmentation

cv2.setNumThreads(1)


def by_opencv(path):
    picture = cv2.imread(path)
    lab = cv2.cvtColor(picture, cv2.COLOR_BGR2LAB)
    sheet = np.median(lab[::16, ::16].reshape(-1, 3), axis=0).astype(np.int16)
    away = cv2.absdiff(lab[:, :, 1], np.full(lab.shape[:2], sheet[1], np.uint8))
    away = cv2.add(away, cv2.absdiff(lab[:, :, 2], np.full(lab.shape[:2], sheet[2], np.uint8)))
    _, mask = cv2.threshold(away, 0, 255, cv2.THRESH_BINARY + cv2.THRESH_OTSU)
    mask = cv2.morphologyEx(mask, cv2.MORPH_OPEN, np.ones((5, 5), np.uint8))
    depth = cv2.distanceTransform(mask, cv2.DIST_L2, 5)
    seeds = (depth > 0.6 * depth.max()).astype(np.uint8)
    _, markers = cv2.connectedComponents(seeds)
    markers[mask == 0] = markers.max() + 1
    cv2.watershed(picture, markers)
    contours, _ = cv2.findContours(mask, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    return len([cv2.minAreaRect(contour) for contour in contours if 5000 < cv2.contourArea(contour)])


def by_scikit_image(path):
    picture = io.imread(path)
    lab = color.rgb2lab(picture)
    sheet = np.median(lab[::16, ::16].reshape(-1, 3), axis=0)
    away = np.hypot(lab[:, :, 1] - sheet[1], lab[:, :, 2] - sheet[2])
    mask = away > filters.threshold_otsu(away)
    mask = ndimage.binary_fill_holes(segmentation.clear_border(morphology.opening(mask, morphology.disk(2))))
    depth = ndimage.gaussian_filter(ndimage.distance_transform_edt(mask), 1.5)
    seeds = measure.label(morphology.h_maxima(depth, 0.1 * depth.max()))
    labels = segmentation.watershed(-depth, seeds, mask=mask)
    return len([own.axis_major_length for own in measure.regionprops(labels) if 5000 < own.area])


for name, steps in [("OpenCV " + cv2.__version__, by_opencv), ("scikit-image", by_scikit_image)]:
    seconds = []
    for _ in range(3):
        started = time.process_time()
        found = steps(sys.argv[1])
        seconds.append(time.process_time() - started)
    print(f"{name}: {found} parts, {min(seconds):.2f} s at best, {sorted(seconds)[1]:.2f} at the middle")
