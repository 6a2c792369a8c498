import re,sys,csv,pathlib,collections
root=pathlib.Path('/work/wt/model/rules')
rows={}
for line in open(root/'drafts/classes.tsv'):
    if line.startswith('#') or line.startswith('family\t'): continue
    c=line.rstrip('\n').split('\t')
    rows[(c[0],c[1])]=dict(cls=c[2],today=c[3],keep=c[4],foreign=c[5],reason=c[6] if len(c)>6 else '')
consumable={('volkswagen-type1','floor-pans'),('willys-4x4','tub-joins'),('morris-minor','commercial-frame'),('morris-minor','open-body-strength'),('volkswagen-type1','sill-reinforcement')}
accessory={('morris-minor','belt-anchorages'),('morris-minor','upper-belt-mounting'),('mgb','belt-anchor'),('volkswagen-type1','belt-anchors')}
rare={('mgb','air-conditioning'),('volkswagen-type1','air-conditioning'),('volkswagen-type1','supercharger'),('volkswagen-type1','search-lamp'),('willys-4x4','fire-equipment'),('willys-4x4','belt-pulley'),('willys-4x4','governor'),('willys-4x4','hydraulic-lift'),('willys-4x4','convoy-lamp'),('willys-4x4','rear-pto'),('mgb','reversing-lamps')}
units={'mgb':'engine crankshaft-bearings synchromesh gearbox-kind overdrive-type axle-ratio charging front-brakes','morris-minor':'engine gearbox-casing synchromesh front-brakes final-drive','volkswagen-type1':'engine inlet-ports gearbox final-drive front-brakes steering wheel-pattern','willys-4x4':'engine gearbox steering-box brake-drums voltage charging','aldermoor-carrier':'engine-size gearbox-casing synchromesh'}
units={(f,x) for f,l in units.items() for x in l.split()}
used=set(); stats=collections.Counter(); up=[]
def feature(fam,tag):
    fid=re.search(r'\sid="([^"]*)"',tag).group(1)
    key=(fam,fid)
    tag=re.sub(r'\s+slip="[^"]*"','',tag)
    if key not in rows: stats['no row']+=1; print('no row',key); return tag
    r=rows[key]; used.add(key)
    cls=r['cls']
    if key in consumable: cls='consumable'
    if key in accessory: cls='accessory'
    if key in rare: cls='-'
    if key in units and re.search(r'\sassembly="',tag): cls='structure'; up.append(key)
    new=''
    if r['keep']!='yes':
        pre=re.search(r'\s+altered="[^"]*"',tag)
        if cls!='-': new+=f' class="{cls}"'
    if r['foreign']: new+=f' foreign="{r["foreign"]}"'
    m=re.search(r'\s+altered="[^"]*"',tag)
    if r['keep']=='yes':
        if m: tag=tag[:m.end()]+new+tag[m.end():]
        else: tag=re.sub(r'\s*>$',new+'>',tag)
    elif m: tag=tag[:m.start()]+new+tag[m.end():]
    else: tag=re.sub(r'>$',new+'>',tag)
    stats[cls]+=1
    return tag
def rates(tag):
    for a in ('sure','probable','guess','look-alike','unlisted'): tag=re.sub(r'\s+'+a+r'="[^"]*"','',tag)
    return tag
for fam in ('aldermoor-carrier','mgb','morris-minor','volkswagen-type1','willys-4x4'):
    for p in sorted((root/fam).rglob('*.xml')):
        if 'reference' in p.parts: continue
        t=p.read_text()
        parts=re.split(r'(<!--.*?-->)',t,flags=re.S)
        for i in range(0,len(parts),2):
            s=parts[i]
            s=re.sub(r'<feature\s[^>]*>',lambda m: feature(fam,m.group(0)) if not re.search(r'<feature\s+(extend|of)=',m.group(0)) else m.group(0),s)
            s=re.sub(r'<rates\s[^>]*>',lambda m: rates(m.group(0)),s)
            s=re.sub(r'<pack\s[^>]*>',lambda m: m.group(0).replace('format="1"','format="2"'),s)
            parts[i]=s
        t2=''.join(parts)
        if t2!=t: p.write_text(t2)
print(stats); print('unused',set(rows)-used); print('upgrade in assembly',len(up),up)
